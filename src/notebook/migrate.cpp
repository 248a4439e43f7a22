// SPDX-License-Identifier: GPL-3.0-or-later
#include "migrate.hpp"

#include <fmt/format.h>

#include <filesystem>
#include <utility>

#include "areo/core/error.hpp"
#include "areo/core/unfinished_file.hpp"
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

// A copy of the file before its tables change, complete under its final name or absent. Another
// connection reads it, while this one keeps writers out.
std::string keep_copy(const sqlite::Connection& db, std::int64_t version) {
  std::string name = fmt::format("{}.version-{}", db.path(), version);
  // One from an interrupted attempt, or from another time, stays.
  const auto is_taken = [](const std::string& file) {
    std::error_code error;
    return std::filesystem::exists(std::filesystem::symlink_status(file, error));
  };
  for (int n = 2; is_taken(name); ++n)
    name = fmt::format("{}.version-{}-{}", db.path(), version, n);
  try {
    UnfinishedFile copy{name, Present::kept, db.path()};
    const sqlite::Connection reader{db.path(), SQLITE_OPEN_READWRITE};
    sqlite::Statement{reader, "VACUUM INTO ?"}.bind(std::string_view{copy.path()}).step();
    copy.finish();
    return name;
  } catch (const Error& e) {
    refuse(db.path(), fmt::format("its copy cannot be written: {}", e.what()),
           "make room, or allow writing to the folder; nothing was changed");
  }
}

// The tables of this version, from those of an older one or from none.
void run_steps(const sqlite::Connection& db, std::int64_t version) {
  for (auto v = static_cast<std::size_t>(version); v < schema_steps.size(); ++v)
    db.run(schema_steps.at(v));
  db.run(fmt::format("PRAGMA application_id = {}", application_id).c_str());
  db.run(fmt::format("PRAGMA user_version = {}", schema_version).c_str());
}

// References between rows are not checked meanwhile: a step may make a table anew.
void bring_up_to_date(const sqlite::Connection& db) {
  sqlite::Transaction t{db};
  // Read again where nobody else writes: another program may have been faster.
  const std::int64_t version = version_of(db);
  if (version == schema_version) return;
  const std::string copy = keep_copy(db, version);
  try {
    run_steps(db, version);
    if (db.number("SELECT count(*) FROM pragma_foreign_key_check") != 0)
      refuse(db.path(), "holds rows that refer to missing ones", "nothing was changed");
  } catch (const Error& e) {
    std::error_code ignored;
    std::filesystem::remove(copy, ignored);  // of a notebook that stays as it is
    throw Error{Errc::store, fmt::format("{}; it cannot be brought up to date", e.what()), e.hint};
  }
  t.commit();  // may have reached the disk even if it reports an error: then the copy is needed
}

}  // namespace

void refuse(const std::string& path, std::string_view why, std::string hint) {
  throw Error{Errc::store, fmt::format("notebook {}: {}", path, why), std::move(hint)};
}

void require_intact(const sqlite::Connection& db, const std::string& hint) {
  sqlite::Statement check{db, "PRAGMA integrity_check(1)"};
  if (check.step() && check.text(0) != "ok")
    refuse(db.path(), "is damaged: " + check.text(0), hint);
  sqlite::Statement references{db, "SELECT \"table\", rowid FROM pragma_foreign_key_check LIMIT 1"};
  if (references.step())
    refuse(db.path(),
           fmt::format("is damaged: {} {} refers to a row that is missing", references.text(0),
                       references.integer(1)),
           hint);
}

void refuse_unreadable(const std::string& path, const std::string& row) {
  refuse(path, row + " cannot be read", "areo export shows it as it is");
}

void prepare(const sqlite::Connection& db) {
  const auto [id, version, tables] = look(db);
  if (id != application_id || tables == 0)
    refuse(db.path(), tables == 0 ? "holds nothing" : "is a database, but not a notebook",
           "name another file; nothing was changed");
  if (version > schema_version)
    refuse(db.path(), "was written by a newer areo", "use that version; nothing was changed");
  if (version < 1)
    refuse(db.path(), fmt::format("has the version {}, which no areo ever wrote", version),
           sqlite::advice(SQLITE_CORRUPT));
  if (version == schema_version) return;
  if (db.read_only())
    refuse(db.path(), "was written by an older areo, and may not be brought up to date",
           "copy it to a folder that may be written");
  bring_up_to_date(db);
}

void create(const std::string& path) {
  UnfinishedFile file{path, Present::kept};
  {
    const sqlite::Connection db{file.path(), SQLITE_OPEN_READWRITE};
    sqlite::Transaction t{db};
    run_steps(db, 0);
    t.commit();
    db.run("PRAGMA journal_mode = WAL");  // the file keeps that
  }
  file.finish();
}

}  // namespace areo::notebook
