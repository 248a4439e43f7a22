// SPDX-License-Identifier: GPL-3.0-or-later
// No SQL but a change of the tables themselves overwrites what was noted: not in any table, also
// one that is not thought of yet.
#include <fmt/format.h>
#include <fmt/ranges.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <iostream>

#include "notebook/filled.hpp"

namespace areo::torture {
namespace {

using namespace notebook;  // NOLINT: it is all about it
using sqlite::Connection;
using sqlite::Statement;
using Names = std::vector<std::string>;

Names names(const Connection& db, const char* sql, const std::string& of = {}) {
  Names all;
  Statement s{db, sql};
  if (!of.empty()) s.bind(std::string_view{of});
  while (s.step()) all.push_back(s.text(0));
  return all;
}

Names tables_of(const Connection& db) {
  return names(db,
               "SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite_%'");
}

// All rows, each as one text.
Names rows_in(const Connection& db, const std::string& table) {
  const Names columns = names(db, "SELECT name FROM pragma_table_info(?)", table);
  Names quoted;
  for (const std::string& c : columns) quoted.push_back(fmt::format("quote(\"{}\")", c));
  return names(
      db,
      fmt::format("SELECT {} FROM {} ORDER BY 1", fmt::join(quoted, " || ',' || "), table).c_str());
}

// Statements that would change or remove a row of a table.
Names attacks_on(const Connection& db, const std::string& table) {
  const Names columns = names(db, "SELECT name FROM pragma_table_info(?)", table);
  const Names keys = names(db, "SELECT name FROM pragma_table_info(?) WHERE pk > 0", table);
  const auto is_key = [&](const std::string& c) {
    return std::find(keys.begin(), keys.end(), c) != keys.end();
  };
  const std::string all = fmt::format("{}", fmt::join(columns, ", "));
  const auto replace_with = [&](const char* key) {
    Names values;
    for (const std::string& c : columns)
      values.push_back(is_key(c) ? fmt::format(fmt::runtime(key), c) : c);
    return fmt::format("INSERT OR REPLACE INTO {0} ({1}) SELECT {2} FROM {0}", table, all,
                       fmt::join(values, ", "));
  };
  Names attacks{fmt::format("DELETE FROM {}", table),
                fmt::format("DELETE FROM {} WHERE {} IS NOT NULL", table, keys.front())};
  for (const char* how : {"", "OR REPLACE ", "OR IGNORE ", "OR FAIL ", "OR ROLLBACK "})
    for (const std::string& c : columns)
      attacks.push_back(
          fmt::format("UPDATE {0}{1} SET {2} = {3}", how, table, c, is_key(c) ? c + " + 1000" : c));
  // The same key again, also written in another way. A row that is nothing but its key can only be
  // replaced by itself.
  if (columns.size() > keys.size())
    for (const char* written : {"{}", "CAST({} AS TEXT)", "{} * 1.0"})
      attacks.push_back(replace_with(written));
  for (const std::string& c : columns)
    attacks.push_back(fmt::format(
        "INSERT INTO {0} ({1}) SELECT {1} FROM {0} WHERE true ON CONFLICT DO UPDATE SET "
        "{2} = excluded.{2}",
        table, all, c));
  // A new key, or none, and a value that no two rows may share: that would replace the other row.
  for (const std::string& index :
       names(db, "SELECT name FROM pragma_index_list(?) WHERE \"unique\" AND origin <> 'pk'",
             table)) {
    const Names shared = names(db, "SELECT name FROM pragma_index_info(?)", index);
    for (const char* written : {"{} + 1000", "NULL"})
      attacks.push_back(
          fmt::format("{} WHERE {} IS NOT NULL", replace_with(written), shared.front()));
  }
  return attacks;
}

const std::string& filled(const std::string& path) {
  Notebook book{path, Open::create};
  fill(book);
  return path;
}

class NeverOverwritten : public TemporaryFolder {
 protected:
  NeverOverwritten() : db_{filled(path()), SQLITE_OPEN_READWRITE} {}

  // Attacks on a table that something came of, with each setting that changes what triggers see.
  Names succeeded_on(const std::string& table) {
    Names all;
    const Names before = rows_in(db_, table);
    for (const char* recursive : {"OFF", "ON"})
      for (const char* foreign : {"OFF", "ON"}) {
        db_.run(fmt::format("PRAGMA recursive_triggers = {}", recursive).c_str());
        db_.run(fmt::format("PRAGMA foreign_keys = {}", foreign).c_str());
        for (const std::string& attack : attacks_on(db_, table)) {
          ++tried_;
          db_.run("BEGIN");
          const int code = sqlite3_exec(db_.get(), attack.c_str(), nullptr, nullptr, nullptr);
          const std::string said = sqlite3_errmsg(db_.get());
          if (code != SQLITE_CONSTRAINT_TRIGGER || rows_in(db_, table) != before)
            all.push_back(fmt::format("{} (recursive_triggers {}, foreign_keys {}): {}", attack,
                                      recursive, foreign, said));
          if (sqlite3_get_autocommit(db_.get()) == 0) db_.run("ROLLBACK");
        }
      }
    return all;
  }

  Connection db_;
  int tried_ = 0;
};

TEST_F(NeverOverwritten, WhateverSqlIsTried) {
  const Names tables = tables_of(db_);
  EXPECT_GE(tables.size(), 14u);
  for (const std::string& table : tables) {
    EXPECT_FALSE(rows_in(db_, table).empty()) << "fill() puts nothing into " << table;
    EXPECT_EQ(succeeded_on(table), Names{});
  }
  std::cout << fmt::format("{} tables, {} attacks\n", tables.size(), tried_);
}

// Each trigger holds off something that no other would.
TEST_F(NeverOverwritten, WithoutAnyOneOfTheTriggersSomethingSucceeds) {
  const Names triggers = names(db_, "SELECT name FROM sqlite_schema WHERE type = 'trigger'");
  EXPECT_GE(triggers.size(), 2 * tables_of(db_).size());
  for (const std::string& trigger : triggers) {
    const Names sql = names(db_, "SELECT sql FROM sqlite_schema WHERE name = ?", trigger);
    const Names table = names(db_, "SELECT tbl_name FROM sqlite_schema WHERE name = ?", trigger);
    db_.run(("DROP TRIGGER " + trigger).c_str());
    EXPECT_FALSE(succeeded_on(table.front()).empty()) << trigger;
    db_.run(sql.front().c_str());
  }
}

}  // namespace
}  // namespace areo::torture
