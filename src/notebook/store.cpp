// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/notebook/store.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <utility>

#include "areo/core/error.hpp"
#include "held.hpp"
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
    // Whoever closes it last holds it for some milliseconds; one that stands still then, for good.
    constexpr int patience_ms = 500;
    db.wait_at_most_ms(patience_ms);
    const int code =
        sqlite3_exec(db.get(), "PRAGMA user_version", nullptr, nullptr, nullptr) & 0xff;
    // Held by somebody; or no room is left for the small files.
    if (code == SQLITE_BUSY || code == SQLITE_IOERR || code == SQLITE_FULL)
      return read_from_copy(path);
    db.wait_at_most_ms(sqlite::longest_wait_ms);
    if (code != SQLITE_CANTOPEN && code != SQLITE_READONLY) return db;
  }
  if (more)
    refuse(path, "its last readings lie in a file beside it, and cannot be joined to it here",
           fmt::format("copy {0} and {0}-wal to a folder that may be written", path));
  return Connection::immutable(path);
}

// SQLite sees damage only where it reads. This looks at the whole file, and at what its rows refer
// to, where that costs little; a backup does so whatever the size.
void require_whole(const Connection& db) {
  constexpr std::uintmax_t most_bytes = 1 << 20;
  if (bytes_in(db.path()) <= most_bytes) require_intact(db, sqlite::advice(SQLITE_CORRUPT));
}

// SQLite takes some names for something else than a file, and what is noted there is gone.
void require_ordinary(const std::string& path, Open how) {
  namespace fs = std::filesystem;
  if (path.empty() || path.ends_with('/') || path == ":memory:" || path.starts_with("file:"))
    refuse(path, "is not the name of a file: nothing would be kept",
           "name a file; ./ in front makes any name one");
  std::error_code error;
  const fs::file_status there = fs::status(path, error);
  if (there.type() == fs::file_type::not_found) {
    if (fs::is_symlink(fs::symlink_status(path, error)))
      refuse(path, "is a link to a file that is missing", "mend the link, or name another file");
    if (how == Open::create) return;
    refuse(path, "there is no such file yet",
           "register an instrument first: areo instrument add NAME");
  }
  if (!fs::status_known(there)) refuse(path, "cannot be read: " + error.message(), "");
  if (!fs::is_regular_file(there)) refuse(path, "is not an ordinary file", "name another file");
  if (bytes_in(path) == 0)
    refuse(path,
           bytes_in(path + "-wal") > 0 ? "is empty, but its last readings lie in a file beside it"
                                       : "is empty: it is not a notebook, or is one no longer",
           "if it was a notebook, take your last backup; for a new one name a file that is not "
           "there");
}

// A name is not yet a file: then it becomes one, with its folders.
void make_missing(const std::string& path) {
  namespace fs = std::filesystem;
  std::error_code error;
  if (fs::exists(path, error)) return;
  if (const fs::path folder = fs::path{path}.parent_path(); !folder.empty())
    fs::create_directories(folder, error);
  if (error) refuse(path, "its folder cannot be made: " + error.message(), "name another file");
  try {
    create(path);
  } catch (const Error& e) {
    if (!fs::exists(path, error))  // else somebody was faster
      refuse(path, e.what(),
             "nothing was noted; check its folder, its rights, and the free space on the disk");
  }
}

Connection open(const std::string& path, Open how) {
  require_ordinary(path, how);
  if (how == Open::create) make_missing(path);
  if (how != Open::read && !may_be_written(path))
    refuse(path, "may not be written", "check that file and folder exist and may be written");
  Connection db = how == Open::read ? open_to_read(path) : Connection{path, SQLITE_OPEN_READWRITE};
  prepare(db);
  require_whole(db);
  if (db.read_only()) return db;
  db.run("PRAGMA foreign_keys = ON");
  db.run_patiently("PRAGMA journal_mode = WAL");
  db.run("PRAGMA synchronous = FULL");
  return db;
}

// One file is one notebook however often it is opened.
IdentityRegister instruments_in(const std::string& path) {
  return IdentityRegister{std::filesystem::canonical(path).string()};
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

Notebook::Notebook(const std::string& path, Open how, Listener listener)
    : impl_{std::make_unique<Impl>(
          Impl{open(path, how), instruments_in(path), std::move(listener.passed_over)})} {
  impl_->db.tell_commits(std::move(listener.noted));
}
Notebook::~Notebook() = default;
Notebook::Notebook(Notebook&&) noexcept = default;
Notebook& Notebook::operator=(Notebook&&) noexcept = default;

calibration::CheckSet Notebook::evaluated(
    const InstrumentRecord& instrument, std::span<const CheckRecord> checks,
    const std::function<calibration::CheckSet()>& make) const {
  return impl_->known->of(impl_->db, instrument, checks, make);
}

instruments::Correction Notebook::corrected(
    const CalibrationRecord& calibration,
    const std::function<instruments::Correction()>& make) const {
  return impl_->known->of(impl_->db, calibration, make);
}

std::size_t Notebook::evaluations() const { return impl_->known->made(); }

void Notebook::at_once(const std::function<bool()>& act) {
  sqlite::Transaction t{impl_->db};
  if (act()) t.commit();
}

void Notebook::at_one_moment(const std::function<void()>& act) const {
  sqlite::Transaction t{impl_->db, sqlite::Transaction::For::reading};
  act();
  t.commit();
}

}  // namespace areo::notebook
