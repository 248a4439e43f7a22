#include "areo/notebook/store.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <unistd.h>

#include <cstdlib>
#include <filesystem>

#include "areo/core/error.hpp"
#include "impl.hpp"
#include "migrate.hpp"

namespace areo::notebook {
namespace {

using sqlite::Connection;
using sqlite::Statement;

// 0 of a file that is not there.
std::uintmax_t bytes_in(const std::string& path) {
  std::error_code error;
  const auto size = std::filesystem::file_size(path, error);
  return error ? 0 : size;
}

bool may_be_written(const std::string& path) {
  return faccessat(AT_FDCWD, path.c_str(), W_OK, AT_EACCESS) == 0;
}

// Whoever reads a notebook makes two small files beside it. Where that cannot be, it is read as it
// lies, as if nobody could write it meanwhile; but what was noted last must be in it.
Connection open_to_read(const std::string& path) {
  const bool writable = may_be_written(path);
  const bool more = bytes_in(path + "-wal") > 0;
  if (writable || more) {
    Connection db{path, writable ? SQLITE_OPEN_READWRITE : SQLITE_OPEN_READONLY};
    const int code =
        sqlite3_exec(db.get(), "PRAGMA user_version", nullptr, nullptr, nullptr) & 0xff;
    if (code != SQLITE_CANTOPEN && code != SQLITE_READONLY) return db;
  }
  if (more)
    refuse(path, "its last readings lie in a file beside it, and cannot be joined to it here",
           fmt::format("copy {0} and {0}-wal to a folder that may be written", path));
  return Connection::immutable(path);
}

// SQLite sees damage only where it reads. This looks at the whole file where that costs little:
// 3 ms a MB, and a notebook of 1000 readings has 0.3 MB. Of 600 random places that were overwritten
// with 8 bytes it found 40 %, reading all rows 19 %; the others were other texts and numbers, or
// bytes not in use.
void require_whole(const Connection& db) {
  constexpr std::uintmax_t most_bytes = 4 << 20;
  if (bytes_in(db.path()) > most_bytes) return;
  Statement check{db, "PRAGMA quick_check(1)"};
  if (check.step() && check.text(0) != "ok")
    refuse(db.path(), "is damaged: " + check.text(0), sqlite::advice(SQLITE_CORRUPT));
}

Connection open(const std::string& path, Open how) {
  namespace fs = std::filesystem;
  if (how != Open::create && !fs::exists(path))
    refuse(path, "there is no such file yet",
           "register an instrument first: areo instrument add NAME");
  if (how == Open::create) {
    std::error_code error;
    if (const fs::path folder = fs::path{path}.parent_path(); !folder.empty())
      fs::create_directories(folder, error);
    if (error) refuse(path, "its folder cannot be made: " + error.message(), "name another file");
  }
  // An empty file becomes a notebook; SQLite would throw away what lies beside it.
  if (bytes_in(path) == 0 && bytes_in(path + "-wal") > 0)
    refuse(path, "is empty, but its last readings lie in a file beside it",
           sqlite::advice(SQLITE_CORRUPT));
  if (how != Open::read && fs::exists(path) && !may_be_written(path))
    refuse(path, "may not be written", "check that file and folder exist and may be written");
  Connection db = how == Open::read
                      ? open_to_read(path)
                      : Connection{path, SQLITE_OPEN_READWRITE |
                                             (how == Open::create ? SQLITE_OPEN_CREATE : 0)};
  prepare(db);
  require_whole(db);
  if (db.read_only()) return db;
  db.run("PRAGMA foreign_keys = ON");
  db.run_patiently("PRAGMA journal_mode = WAL");
  db.run("PRAGMA synchronous = FULL");
  return db;
}

// One file is one notebook however often it is opened; one in memory is like no other.
IdentityRegister instruments_in(const std::string& path) {
  std::error_code error;
  const auto file = std::filesystem::canonical(path, error);
  return error ? IdentityRegister{} : IdentityRegister{file.string()};
}

}  // namespace

std::string default_path() {
  const auto variable = [](const char* name) -> std::string {
    const char* v = std::getenv(name);
    return v != nullptr ? v : "";
  };
  if (std::string file = variable("AREO_NOTEBOOK"); !file.empty()) return file;
  if (const std::string data = variable("XDG_DATA_HOME"); !data.empty())
    return data + "/areo/notebook.db";
  if (const std::string home = variable("HOME"); !home.empty())
    return home + "/.local/share/areo/notebook.db";
  throw Error{Errc::store, "no place for the notebook is known",
              "set AREO_NOTEBOOK to a file name"};
}

Notebook::Notebook(const std::string& path, Open how)
    : impl_{std::make_unique<Impl>(Impl{open(path, how), instruments_in(path)})} {}
Notebook::~Notebook() = default;
Notebook::Notebook(Notebook&&) noexcept = default;
Notebook& Notebook::operator=(Notebook&&) noexcept = default;

}  // namespace areo::notebook
