// SPDX-License-Identifier: GPL-3.0-or-later
#include "whole.hpp"

#include <fmt/format.h>

#include "areo/core/error.hpp"
#include "notebook/schema.hpp"
#include "notebook/sqlite.hpp"

namespace areo::torture {
namespace {

using notebook::sqlite::Connection;
using notebook::sqlite::Statement;

}  // namespace

std::string rows_of_older(const std::string& path) {
  const Connection db{path, SQLITE_OPEN_READWRITE};
  std::string all;
  for (const char* sql :
       {"SELECT count(*), group_concat(id || name || note) FROM instrument",
        "SELECT count(*), group_concat(id || reading_typed || note) FROM check_reading",
        "SELECT count(*), group_concat(id || in_force_from) FROM calibration",
        "SELECT count(*), group_concat(calibration || check_reading) FROM calibration_check",
        "SELECT count(*), group_concat(id || liquid || gravity) FROM liquid_pair",
        "SELECT count(*), group_concat(pair || reason) FROM liquid_pair_left_out",
        "SELECT count(*), group_concat(id || name) FROM batch",
        "SELECT count(*), group_concat(id || typed || note) FROM reading",
        "SELECT count(*), group_concat(reading || reason) FROM reading_exclusion"}) {
    const std::string table{std::string_view{sql}.substr(std::string_view{sql}.rfind(' ') + 1)};
    Statement there{db, "SELECT 1 FROM sqlite_schema WHERE name = ?"};
    if (!there.bind(std::string_view{table}).step()) continue;
    Statement rows{db, sql};
    if (rows.step() && rows.integer(0) > 0) all += table + ": " + rows.text(1) + "\n";
  }
  return all;
}

std::string wrong_with(const std::string& path, int version) {
  try {
    const Connection db{path, SQLITE_OPEN_READWRITE};
    Statement check{db, "PRAGMA integrity_check"};
    check.step();
    if (check.text(0) != "ok") return path + ": " + check.text(0);
    if (const auto found = db.number("PRAGMA user_version"); found != version)
      return fmt::format("{} has version {}, not {}", path, found, version);
    return db.number("PRAGMA application_id") == notebook::application_id
               ? ""
               : path + " is no notebook";
  } catch (const Error& e) {
    return e.what();
  }
}

}  // namespace areo::torture
