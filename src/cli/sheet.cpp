#include "sheet.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <iostream>
#include <optional>
#include <sstream>
#include <string_view>

#include "areo/core/error.hpp"
#include "areo/report/pdf.hpp"
#include "failure.hpp"
#include "usage.hpp"
#include "version.hpp"
#include "write_file.hpp"

namespace areo::cli {
namespace {

using report::SheetFormat;

struct Known {
  std::string_view word, ending;
  SheetFormat format;
};
constexpr std::array known{
    Known{"text", ".txt", SheetFormat::text}, Known{"csv", ".csv", SheetFormat::csv},
    Known{"markdown", ".md", SheetFormat::markdown}, Known{"html", ".html", SheetFormat::html}};

void set_on_paper(const SheetOptions& o, const report::SheetHead& head, std::size_t cells,
                  const std::function<void(report::SheetWriter&)>& fill,
                  const OneSheet& one_sheet) {
  if (cells > most_cells_on_paper)
    throw Error{Errc::domain,
                fmt::format("{} cells are too many for paper; up to {} are set", cells,
                            most_cells_on_paper),
                "take a larger step, fewer columns, or write it as HTML or CSV"};
  if (head.columns.size() > most_columns_on_paper)
    throw Error{Errc::domain,
                fmt::format("{} columns are too many for paper; up to {} fit", head.columns.size(),
                            most_columns_on_paper),
                "take fewer, or write it as HTML or CSV"};
  const auto html = [&](const report::SheetHead& h) {
    std::ostringstream page;
    fill(*sheet_writer(SheetFormat::html, page, h));
    return page.str();
  };
  const std::string pdf = one_sheet.sizes == 0
                              ? report::pdf(html(head))
                              : report::pdf_on_one_sheet(one_sheet.sizes, [&](std::size_t size) {
                                  report::SheetHead sized = head;
                                  one_sheet.set(sized, size);
                                  return html(sized);
                                });
  write_file(o.out, [&](std::ostream& out) { out << pdf; });
}

}  // namespace

std::optional<SheetFormat> format_of(const SheetOptions& o) {
  if (o.csv) return SheetFormat::csv;
  for (const Known& k : known)
    if (o.format == k.word) return k.format;
  if (o.format == "pdf" || report::says_pdf(o.out)) return std::nullopt;
  for (const Known& k : known)
    if (o.out.ends_with(k.ending)) return k.format;
  if (o.out.empty()) return SheetFormat::text;
  throw ParseError{"the name of the file does not say what it is to be", o.out, 0, o.out.size(),
                   "end it in .txt, .csv, .md, .html or .pdf, or say --format"};
}

void add_sheet_options(const Command& command, SheetOptions& options) {
  command
      .add_option("--out", options.out,
                  "write it to this file; its ending says how, an older one is replaced")
      .type_name("FILE.txt|csv|md|html|pdf");
  command
      .add_option("--format", options.format,
                  "text, csv, markdown, html or pdf; text unless stated")
      .one_of({"text", "csv", "markdown", "html", "pdf"});
  command.add_option("--paper", options.paper, "of a PDF, A4 or Letter; A4 unless stated")
      .one_of({"A4", "Letter"});
  command.add_flag("--csv", options.csv, "as CSV, the same as --format csv");
}

void check_sheet_options(const SheetOptions& o, const Session& session) {
  refuse_together(o.csv, "--csv", session.json, "--json", "choose one of the two forms");
  refuse_together(o.csv, "--csv", !o.format.empty(), "--format", "choose one of the two");
  refuse_together(session.json, "--json", !o.format.empty(), "--format", "choose one of the two");
  refuse_together(session.json, "--json", !o.out.empty(), "--out",
                  "JSON goes to standard output: areo ... --json > FILE");
  if (o.format == "pdf" && o.out.empty())
    throw UsageError{"a PDF goes into a file, and none is named", "say --out table.pdf"};
  (void)format_of(o);
}

Shape shape_of(const SheetOptions& o) {
  return format_of(o) == SheetFormat::csv ? Shape::for_programs : Shape::for_people;
}

std::vector<std::string> source_lines(std::vector<std::string> models) {
  models.insert(models.begin(), fmt::format("computed by areo {}", version));
  return models;
}

void write_sheet(const SheetOptions& o, report::SheetHead head, std::size_t cells,
                 const std::function<void(report::SheetWriter&)>& fill, const OneSheet& one_sheet) {
  head.setup.paper = o.paper == "Letter" ? report::Paper::letter : report::Paper::a4;
  const auto format = format_of(o);
  if (!format) set_on_paper(o, head, cells, fill, one_sheet);
  if (format && o.out.empty()) {
    fill(*sheet_writer(*format, std::cout, head));
    std::cout.flush();
    return;
  }
  if (format)
    write_file(o.out, [&](std::ostream& out) { fill(*sheet_writer(*format, out, head)); });
  line(fmt::format("{}: {}", o.out, head.title));
}

}  // namespace areo::cli
