// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/document/sheet.hpp"

#include <fmt/format.h>

#include "areo/core/error.hpp"
#include "sheet_writers.hpp"

namespace areo::document {

namespace {

void require_cells(std::size_t cells, std::size_t columns) {
  if (cells != columns)
    throw Error{Errc::domain, fmt::format("{} cells for {} columns", cells, columns)};
}

}  // namespace

void SheetWriter::row(const std::vector<std::string>& cells) {
  require_cells(cells.size(), columns_);
  write_row(cells);
}

void SheetWriter::summary(const std::vector<std::string>& cells) {
  require_cells(cells.size(), columns_);
  write_summary(cells);
}

void SheetWriter::end(const std::vector<std::string>& notes) { write_end(notes); }

std::unique_ptr<SheetWriter> sheet_writer(SheetFormat format, std::ostream& out,
                                          const SheetHead& head) {
  if (head.columns.empty()) throw Error{Errc::domain, "a table needs columns"};
  switch (format) {
    case SheetFormat::text: return text_sheet(out, head);
    case SheetFormat::csv: return csv_sheet(out, head);
    case SheetFormat::markdown: return markdown_sheet(out, head);
    case SheetFormat::html: return html_sheet(out, head);
  }
  throw Error{Errc::domain, "no such format of a table"};
}

std::string heading(const SheetColumn& c) {
  return c.unit.empty() ? c.name : c.name + ", " + c.unit;
}

}  // namespace areo::document
