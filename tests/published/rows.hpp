// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Rows of tables/*.csv as parameters of tests. A table that does not say where it comes from and
// how far it is verified, or that is empty, stops the test program: nothing is compared with
// numbers of unknown origin, and no test passes for want of rows.
#include <gtest/gtest.h>

#include <charconv>
#include <cstddef>
#include <filesystem>
#include <fstream>
#include <istream>
#include <memory>
#include <ostream>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include "areo/text/csv.hpp"

namespace areo::published {

struct Table {
  std::string file, source, verified;
  std::vector<std::string> columns;
};

/// What a cell says: a number and half a unit of its last printed digit.
struct Printed {
  double value;
  double half_digit;
};

inline Printed printed(std::string_view cell) {
  std::string_view text = cell;
  if (text.starts_with('+')) text.remove_prefix(1);
  Printed p{0, 0.5};
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), p.value);
  if (error != std::errc{} || end != text.data() + text.size())
    throw std::runtime_error{"not a number: '" + std::string{cell} + "'"};
  if (const auto point = text.find('.'); point != std::string_view::npos)
    for (std::size_t i = point + 1; i < text.size() && text[i] >= '0' && text[i] <= '9'; ++i)
      p.half_digit /= 10;
  if (const auto e = text.find_first_of("eE"); e != std::string_view::npos)
    throw std::runtime_error{"half a digit of '" + std::string{cell} + "' is not defined here"};
  return p;
}

struct Row {
  std::shared_ptr<const Table> table;
  std::size_t line = 0;
  std::vector<std::string> cells;

  [[nodiscard]] const std::string& text(std::string_view column) const {
    for (std::size_t i = 0; i < table->columns.size(); ++i)
      if (table->columns[i] == column) return cells[i];
    throw std::runtime_error{table->file + " has no column '" + std::string{column} + "'"};
  }
  [[nodiscard]] bool empty(std::string_view column) const { return text(column).empty(); }
  [[nodiscard]] Printed operator[](std::string_view column) const { return printed(text(column)); }
  [[nodiscard]] double number(std::string_view column) const {
    const std::string& cell = text(column);
    double v = 0;
    const auto [end, error] = std::from_chars(cell.data(), cell.data() + cell.size(), v);
    if (error != std::errc{} || end != cell.data() + cell.size())
      throw std::runtime_error{"not a number: '" + cell + "'"};
    return v;
  }
  /// For SCOPED_TRACE.
  [[nodiscard]] std::string where() const {
    return table->file + ":" + std::to_string(line) + "\n  source: " + table->source +
           "\n  verified: " + table->verified;
  }
};
inline void PrintTo(const Row& row, std::ostream* out) {
  *out << row.table->file << ':' << row.line;
}

inline std::vector<Row> rows_from(std::istream& in, const std::string& file) {
  text::CsvReader reader{in, file};
  auto table = std::make_shared<Table>(
      Table{file, reader.comment("source"), reader.comment("verified"), reader.columns()});
  if (table->source.empty()) throw std::runtime_error{file + " does not name its source"};
  if (table->verified.empty()) throw std::runtime_error{file + " does not say how it is verified"};
  std::vector<Row> rows;
  for (text::CsvRow row; reader.next(row);) rows.push_back({table, row.line, row.cells});
  if (rows.empty()) throw std::runtime_error{file + " has no rows"};
  return rows;
}

inline std::filesystem::path tables_dir() { return AREO_TABLES_DIR; }

inline std::vector<Row> rows_of(const std::string& name) {
  const std::string file = name + ".csv";
  std::ifstream in{tables_dir() / file};
  return rows_from(in, "tables/" + file);
}

/// Rows whose cell in `column` reads `value`.
inline std::vector<Row> rows_of(const std::string& name, std::string_view column,
                                std::string_view value) {
  std::vector<Row> rows = rows_of(name);
  std::erase_if(rows, [&](const Row& r) { return r.text(column) != value; });
  if (rows.empty()) throw std::runtime_error{name + " has no rows with " + std::string{value}};
  return rows;
}

inline std::string line_name(const testing::TestParamInfo<Row>& info) {
  return "line" + std::to_string(info.param.line);
}

/// A table-driven test: `class XTable : public RowTest {}; TEST_P(XTable, Is) { row()... }`
class RowTest : public testing::TestWithParam<Row> {
 protected:
  static const Row& row() { return GetParam(); }

 private:
  testing::ScopedTrace trace_{__FILE__, __LINE__, GetParam().where()};
};

}  // namespace areo::published
