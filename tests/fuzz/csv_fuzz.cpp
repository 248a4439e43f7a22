// SPDX-License-Identifier: GPL-3.0-or-later
// Any bytes as a CSV file: each row is told apart or refused, what is written again is read as the
// same, and a column means one of the fields or nothing.
#include <fmt/format.h>

#include <algorithm>
#include <cstdint>
#include <optional>
#include <sstream>
#include <string>
#include <vector>

#include "areo/stream/import_row.hpp"
#include "areo/text/columns.hpp"
#include "areo/text/csv.hpp"
#include "refusal.hpp"

namespace areo::fuzz {
namespace {

using text::Separator;
using Cells = std::vector<std::string>;

struct Table {
  Cells columns;
  std::vector<Cells> rows;  ///< those that were not refused
};

std::optional<Table> table_from(const std::string& text, Separator separator) {
  std::istringstream in{text};
  std::optional<text::CsvReader> reader;
  if (!accepts([&] { reader.emplace(in, "f.csv", separator); })) return std::nullopt;
  Table table{reader->columns(), {}};
  std::size_t last = 0;
  for (text::CsvRow row;;) {
    bool more = false;
    const bool good = accepts([&] { more = reader->next(row); });
    if (good && !more) break;
    require(row.line > last, "each row stands below the one before");
    last = row.line;
    if (!good) continue;
    require(row.cells.size() == table.columns.size(), "a row has as many cells as the header");
    table.rows.push_back(row.cells);
  }
  const auto lines = static_cast<std::size_t>(std::count(text.begin(), text.end(), '\n')) + 1;
  require(last <= lines, "no row stands below the end");
  return table;
}

void write_row(std::string& out, const Cells& cells) {
  std::string line;
  for (std::size_t i = 0; i < cells.size(); ++i)
    line += (i == 0 ? "" : ",") + text::csv_cell(cells[i]);
  out += (line.empty() ? "\"\"" : line) + "\n";  // an empty line would be passed over
}

void check_written_again(const Table& table) {
  std::string text;
  write_row(text, table.columns);
  for (const Cells& row : table.rows) write_row(text, row);
  const auto again = table_from(text, Separator::comma);
  require(again && again->columns == table.columns, "a header written again is the same", text);
  require(again->rows == table.rows, "rows written again are the same", text);
}

void check_text_cell(const std::string& text) {
  const std::string cell = text::csv_text_cell(text);
  require(!drives_terminal(cell), "a cell of free text drives no terminal", cell);
  const auto table = table_from("a,b\n" + cell + ",\n", Separator::comma);
  require(table && table->rows.size() == 1, "a cell of free text is one cell", cell);
  const std::string& shown = table->rows.front().front();
  require(shown.empty() || std::string_view{"=+-@\t"}.find(shown.front()) == std::string_view::npos,
          "no spreadsheet runs a cell of free text", shown);
  require(text::csv_text_cell(shown) == cell, "a cell of free text is made so once", cell);
}

void check_words(const Table& table) {
  const auto& fields = stream::import_fields();
  const auto known = [&](const std::string& field) {
    return field.empty() || std::find(fields.begin(), fields.end(), field) != fields.end();
  };
  for (const std::string& header : table.columns) {
    const text::ColumnMeaning m = text::meaning_of(header, fields);
    require(known(m.field), "a column means one of the fields or nothing", header);
    require(!m.field.empty() || m.unit.empty(), "what means nothing has no unit", header);
    require(text::unit_from_header(m.unit) == m.unit, "a unit is what its word means", m.unit);
    for (const bool misspelt : {false, true})
      require(known(text::nearest_field(header, fields, misspelt)),
              "what a column is near to is one of the fields", header);
  }
}

void check_columns(const Table& table) {
  text::ColumnRules rules;
  rules.fields = stream::import_fields();
  rules.leave_out = true;
  std::optional<text::Columns> columns;
  if (!accepts([&] { columns.emplace(table.columns, rules, "f.csv"); })) return;
  for (const std::string& field : rules.fields)
    if (const auto place = columns->find(field))
      require(columns->meanings()[*place].field == field, "a field is found where it is", field);
  for (const Cells& row : table.rows)
    for (std::size_t i = 0; i < row.size(); ++i) {
      const text::ColumnMeaning& m = columns->meanings()[i];
      std::string cell;
      if (!accepts([&] { cell = text::cell_with_unit(row[i], m, table.columns[i]); })) continue;
      require(cell == row[i] || (text::is_bare_number(row[i]) && cell.ends_with(m.unit)),
              "only a bare number gets the unit of its column", row[i]);
    }
}

}  // namespace
}  // namespace areo::fuzz

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace areo::fuzz;
  const std::string text{reinterpret_cast<const char*>(data), size};
  check_text_cell(text);
  for (const Separator separator : {Separator::comma, Separator::of_header})
    if (const auto table = table_from(text, separator)) {
      check_written_again(*table);
      check_words(*table);
      check_columns(*table);
    }
  return 0;
}
