#include "migrate.hpp"

#include <fmt/format.h>

#include <filesystem>
#include <utility>

#include "areo/core/error.hpp"
#include "schema.hpp"

namespace areo::notebook {
namespace {

std::int64_t version_of(const sqlite::Connection& db) { return db.number("PRAGMA user_version"); }

struct Contents {
  std::int64_t application;
  std::int64_t version;
  std::int64_t tables;
};

// All of one moment: between two reads another program may make it a notebook.
Contents look(const sqlite::Connection& db) {
  sqlite::Transaction t{db, sqlite::Transaction::For::reading};
  const Contents found{db.number("PRAGMA application_id"), version_of(db),
                       db.number("SELECT count(*) FROM sqlite_schema")};
  t.commit();
  return found;
}

// A copy of the file before its tables change. It is complete under its final name, or absent; one
// from an interrupted attempt is as good as a new one and stays.
void keep_copy(const sqlite::Connection& db, std::int64_t version) {
  namespace fs = std::filesystem;
  const std::string copy = fmt::format("{}.version-{}", db.path(), version);
  const std::string partial = copy + ".partial";
  std::error_code error;
  if (fs::exists(copy, error)) return;
  fs::remove(partial, error);
  sqlite::Statement{db, "VACUUM INTO ?"}.bind(std::string_view{partial}).step();
  fs::rename(partial, copy, error);
  if (error)
    refuse(db.path(), "its copy cannot be written: " + error.message(),
           "make room or free the folder's rights; nothing was changed");
}

// References between rows are not checked meanwhile: a step may make a table anew.
void run_steps(const sqlite::Connection& db) {
  sqlite::Transaction t{db};
  // Read again inside the transaction: another program may have been faster.
  for (auto v = static_cast<std::size_t>(version_of(db)); v < schema_steps.size(); ++v)
    db.run(schema_steps.at(v));
  db.run(fmt::format("PRAGMA application_id = {}", application_id).c_str());
  db.run(fmt::format("PRAGMA user_version = {}", schema_version).c_str());
  if (db.number("SELECT count(*) FROM pragma_foreign_key_check") != 0)
    refuse(db.path(), "holds rows that refer to missing ones", "nothing was changed");
  t.commit();
}

}  // namespace

void refuse(const std::string& path, std::string_view why, std::string hint) {
  throw Error{Errc::store, fmt::format("notebook {}: {}", path, why), std::move(hint)};
}

void prepare(const sqlite::Connection& db) {
  const auto [id, version, tables] = look(db);
  if (version > schema_version && id == application_id)
    refuse(db.path(), "was written by a newer areo", "use that version; nothing was changed");
  if (tables > 0 && (id != application_id || version == 0))
    refuse(db.path(), "is a database, but no notebook", "name another file; nothing was changed");
  if (version == schema_version) return;
  if (db.read_only())
    refuse(db.path(),
           tables == 0 ? "holds nothing"
                       : "was written by an older areo, and may not be brought up to date",
           "copy it to a folder that may be written");
  if (tables > 0) keep_copy(db, version);
  run_steps(db);
}

}  // namespace areo::notebook
