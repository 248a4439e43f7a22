// SPDX-License-Identifier: GPL-3.0-or-later
#include "sheet.hpp"

#include <fmt/format.h>

#include <iostream>
#include <sstream>

#include "areo/core/error.hpp"
#include "areo/core/version.hpp"
#include "areo/publish/pdf.hpp"
#include "areo/publish/write_file.hpp"
#include "open_notebook.hpp"
#include "screen.hpp"
#include "usage.hpp"

namespace areo::cli {
namespace {

using document::SheetFormat;

// PDF is HTML first.
SheetFormat writer_of(PrintFormat format) {
  switch (format) {
    case PrintFormat::text: return SheetFormat::text;
    case PrintFormat::csv: return SheetFormat::csv;
    case PrintFormat::markdown: return SheetFormat::markdown;
    case PrintFormat::html:
    case PrintFormat::pdf: break;
  }
  return SheetFormat::html;
}

void set_on_paper(const SheetOptions& o, const document::SheetHead& head, std::size_t cells,
                  const std::function<void(document::SheetWriter&)>& fill,
                  const OneSheet& one_sheet) {
  if (cells > most_cells_on_paper)
    throw Error{Errc::domain,
                fmt::format("{} cells are too many for paper; up to {} are set", cells,
                            most_cells_on_paper),
                "take a larger step, fewer columns, or write it as HTML or CSV"};
  if (one_sheet.sizes == 0 && !fits_across(head))
    throw Error{Errc::domain, fmt::format("{} columns are too many for paper", head.columns.size()),
                "take fewer, or write it as HTML or CSV"};
  const auto html = [&](const document::SheetHead& h) {
    std::ostringstream page;
    fill(*sheet_writer(SheetFormat::html, page, h));
    return page.str();
  };
  const std::string pdf = one_sheet.sizes == 0
                              ? publish::pdf(html(head))
                              : publish::pdf_on_one_sheet(one_sheet.sizes, [&](std::size_t size) {
                                  document::SheetHead sized = head;
                                  one_sheet.set(sized, size);
                                  return html(sized);
                                });
  publish::write_file(o.out, [&](std::ostream& out) { out << pdf; });
}

// The largest type that leaves it on one sheet.
OneSheet on_the_wall(const document::SheetHead& head) {
  const auto types = document::wall_types(head);
  return {types.size(),
          [types](document::SheetHead& h, std::size_t i) { h.setup.wall_type = types[i]; }};
}

}  // namespace

void add_sheet_options(const Command& command, SheetOptions& options) {
  add_print_options(command, options, {"text", "csv", "markdown", "html", "pdf"});
  command.add_flag("--csv", options.csv, "as CSV, the same as --format csv");
}

void check_sheet_options(const SheetOptions& o, const Session& session) {
  refuse_together(o.csv, "--csv", session.json, "--json", "choose one of the two forms");
  refuse_together(o.csv, "--csv", !o.format.empty(), "--format", "choose one of the two");
  refuse_together(session.json, "--json", !o.out.empty(), "--out",
                  "JSON goes to standard output: areo ... --json > FILE");
  if (!o.csv) check_print_options(o, session);
}

PrintFormat format_of(const SheetOptions& o) {
  return o.csv ? PrintFormat::csv : format_of(static_cast<const PrintOptions&>(o));
}

paper::Shape shape_of(const SheetOptions& o) {
  return format_of(o) == PrintFormat::csv ? paper::Shape::for_programs : paper::Shape::for_people;
}

void write_sheet(const SheetOptions& o, const Session& session, document::SheetHead head,
                 std::size_t cells, const std::function<void(document::SheetWriter&)>& fill,
                 const OneSheet& one_sheet) {
  head.setup.paper = paper_of(o);
  head.text_columns = o.out.empty() ? screen_columns() : file_columns();
  const PrintFormat format = format_of(o);
  if (o.out.empty()) {
    fill(*sheet_writer(writer_of(format), std::cout, head));
    std::cout.flush();
    return;
  }
  publish::refuse_same(o.out, notebook_path(session), "the notebook");
  if (format == PrintFormat::pdf)
    set_on_paper(o, head, cells, fill, one_sheet);
  else
    publish::write_file(
        o.out, [&](std::ostream& out) { fill(*sheet_writer(writer_of(format), out, head)); });
  line(fmt::format("{}: {}", o.out, head.called.empty() ? head.title : head.called));
}

int write_grid(const paper::Grid& g, const SheetOptions& options, const Session& session) {
  if (session.json) {
    paper::each_json(g, [](const std::string& object) { raw_line(object); });
    return done;
  }
  const paper::GridLayout layout = paper::grid_layout(g, session.full);
  const paper::Shape shape = shape_of(options);
  const document::SheetHead head = paper::grid_head(g, layout, shape);
  OneSheet one_sheet;
  if (g.for_the_wall && format_of(options) == PrintFormat::pdf) one_sheet = on_the_wall(head);
  write_sheet(
      options, session, head, paper::cells_of(g),
      [&](document::SheetWriter& out) { paper::write_rows(g, layout, shape, out); }, one_sheet);
  return done;
}

}  // namespace areo::cli
