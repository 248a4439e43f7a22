// SPDX-License-Identifier: GPL-3.0-or-later
// areo report: a page to show, and a picture.
#include <memory>

#include "areo/document/chart.hpp"
#include "areo/paper/report.hpp"
#include "areo/publish/write_file.hpp"
#include "areo/publish/write_page.hpp"
#include "areo/text/parse.hpp"
#include "command.hpp"
#include "failure.hpp"
#include "open_notebook.hpp"
#include "print_options.hpp"
#include "screen.hpp"
#include "usage.hpp"

namespace areo::cli {
namespace {

struct Options {
  std::string name, bottle, expected, limit, level, plot, glass, on;
  PrintOptions print;
  bool audience = false;
  // With nothing but --plot there is a picture and no report.
  [[nodiscard]] bool plot_alone() const {
    return !plot.empty() && print.out.empty() && print.format.empty();
  }
};

void check_options(const Options& o, const Session& session) {
  check_print_options(o.print, session);
  refuse_csv(o.print, "a report");
  if (o.audience && o.plot_alone())
    throw UsageError{"--audience is about the report, and --plot draws the gravity alone",
                     "say --out page.html too"};
  if (!o.glass.empty() && !o.audience)
    throw UsageError{"--glass is for the page of guests", "say --audience too"};
  refuse_level_alone(o.limit, o.level);
  if (!o.plot.empty()) (void)document::picture_format(o.plot);  // before anything is written
  const std::string& out = o.print.out;
  for (const std::string& file : {out, o.plot})
    if (!file.empty()) publish::refuse_same(file, notebook_path(session), "the notebook");
  if (!out.empty() && !o.plot.empty()) publish::refuse_same(out, o.plot, "the picture's file too");
}

// One bottle, one picture.
void write_plot(const Options& o, const paper::ReportData& m) {
  const document::PictureFormat format = document::picture_format(o.plot);
  const std::string svg = paper::gravity_picture(m);
  if (format == document::PictureFormat::pdf)
    publish::write_html(o.plot, document::picture_page(paper::report_title(m.batch->record()), svg),
                        true);
  else
    publish::write_file(o.plot, [&](std::ostream& out) { out << svg; });
}

// A page goes into a new file of its own if nobody says where.
void give_own_name(Options& o) {
  if (!o.print.out.empty() || !o.print.format.empty() || !o.plot.empty()) return;
  o.print.out = publish::free_name(o.name + (o.audience ? "-guests" : ""), ".html");
  o.print.present = Present::kept;
}

int run_report(Options o, const Session& session) {
  give_own_name(o);
  check_options(o, session);
  const std::string& out = o.print.out;
  const auto expected = text::expected_end_from_text(o.expected);
  const auto limit = wording::limit_from_text(o.limit, o.level);
  const Moment on = o.on.empty() ? now() : past_day_end_from_text(o.on, now());
  const std::optional<double> glass = paper::glass_from_text(o.glass);
  const notebook::Notebook book = open_notebook(session, notebook::Open::read);
  batch::Batch batch{book, o.name};
  paper::ReportData m = paper::material_of(book, batch, o.bottle, expected, limit, session.full);
  if (glass) m.glass_l = *glass;
  if (!o.plot.empty()) write_plot(o, m);
  if (!o.plot_alone())
    print_document(o.audience ? paper::audience_report(m, on) : paper::full_report(m, on), o.print);
  if (session.json) {
    raw_line(paper::report_json(batch.record(), out, o.plot));
    return done;
  }
  const PrintFormat format = format_of(o.print);
  if (!out.empty() && (format == PrintFormat::html || format == PrintFormat::pdf))
    line(publish::page_written(out, format == PrintFormat::pdf));
  else if (!out.empty())
    line(out + ": " + paper::report_title(batch.record()));
  if (!o.plot.empty()) line(o.plot + ": gravity against date");
  return done;
}

}  // namespace

void setup_report(const Command& app, const Session& session, Run& run) {
  const auto o = std::make_shared<Options>();
  auto c = app.add_subcommand("report", "a page with the story of a batch, to show and to print");
  c.add_option("name", o->name, "the batch").required();
  add_print_options(c, o->print, {"text", "markdown", "html", "pdf"});
  c.add_flag("--audience", o->audience, "one sheet for people who only want to know");
  c.add_option("--glass", o->glass, "of the guests; 200 mL unless stated").volume("150mL");
  c.add_option("--plot", o->plot, "write the plot of the gravity to this file")
      .type_name("FILE.svg|pdf");
  c.add_option("--bottle", o->bottle, "of this bottle only; all that were read unless stated")
      .type_name("NAME");
  c.add_option("--expected", o->expected, "where it should end: steady above it is stuck")
      .type_name("1.008");
  c.add_option("--limit", o->limit, "an alcohol, or a named limit, to hold it against")
      .type_name("0.5");
  c.add_option("--level", o->level, "how sure to be on each side of the limit; 95 unless stated")
      .type_name("95%");
  c.add_option("--on", o->on, "day of the report; today unless stated").type_name("DATE");
  c.footer(
      "Examples:\n  areo report PT-1\n  areo report PT-1 --out pt-1.html --limit 0.5\n"
      "  areo report PT-1 --audience --out for-guests.html\n"
      "  areo report PT-1 --plot pt-1.svg");
  c.callback([=, &session, &run] { run = [=, &session] { return run_report(*o, session); }; });
}

}  // namespace areo::cli
