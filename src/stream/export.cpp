// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/stream/export.hpp"

#include <vector>

#include "areo/stream/rows.hpp"
#include "areo/text/csv.hpp"
#include "text/json_dump.hpp"

namespace areo::stream {

std::int64_t export_json(const notebook::Notebook& book,
                         const std::function<void(std::string_view)>& line) {
  std::int64_t rows = 0;
  line(text::dump({{"areo", "export of a notebook"},
                   {"version", notebook::notebook_version},
                   {"rows", book.rows()}}));
  for (const notebook::Table& table : book.tables())
    book.each_row(table, [&](const std::vector<notebook::Cell>& cells) {
      line(row_json(table, cells));
      ++rows;
    });
  return rows;
}

std::int64_t export_csv(const notebook::Notebook& book, const notebook::Table& table,
                        std::ostream& out) {
  std::int64_t rows = 0;
  const auto line = [&](std::size_t n, const auto& cell) {
    for (std::size_t i = 0; i < n; ++i) out << (i == 0 ? "" : ",") << cell(i);
    out << '\n';
  };
  line(table.columns.size(), [&](std::size_t i) { return table.columns[i].name; });
  book.each_row(table, [&](const std::vector<notebook::Cell>& cells) {
    line(cells.size(), [&](std::size_t i) { return text::csv_cell(row_cell(cells[i])); });
    ++rows;
  });
  return rows;
}

std::string exported_json(std::int64_t rows, const std::string& file) {
  return text::dump({{"rows", rows}, {"file", file}});
}

}  // namespace areo::stream
