// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Everything in a notebook, row by row, and back: nothing is interpreted, so nothing is lost.
#include <array>
#include <cstdint>
#include <functional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

namespace areo::notebook {

/// A value as the file holds it. std::monostate: nothing.
using Cell = std::variant<std::monostate, std::int64_t, double, std::string>;

struct Column {
  std::string name;
  bool text = false;
  bool whole = false;           ///< a number of a row, yes or no, or seconds
  bool may_be_nothing = false;  ///< an empty text and nothing are different things only here
};
struct Table {
  std::string name;
  std::vector<Column> columns;
};

/// Tables that exports of an older areo lack.
inline constexpr std::array younger_tables{"setting"};

/// In a folder of tables: how many rows each has.
inline constexpr const char* rows_file = "rows.csv";

/// A row with the names of its columns.
struct NamedRow {
  std::string table;
  std::vector<std::pair<std::string, Cell>> cells;
  friend bool operator==(const NamedRow&, const NamedRow&) = default;
};
/// Hands out the next row; false at the end.
using NextRow = std::function<bool(NamedRow&)>;

/// What became of rows that were brought back.
struct Restored {
  std::int64_t added = 0;
  std::int64_t known = 0;  ///< were there already, with the same content
};

}  // namespace areo::notebook
