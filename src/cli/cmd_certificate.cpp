// areo certificate: the certificate of a user's own calibration.
#include <fmt/format.h>

#include <algorithm>
#include <limits>
#include <memory>

#include "areo/core/error.hpp"
#include "areo/core/shell_word.hpp"
#include "areo/notebook/recompute.hpp"
#include "areo/paper/certificate.hpp"
#include "areo/publish/write_file.hpp"
#include "areo/publish/write_page.hpp"
#include "areo/text/format.hpp"
#include "command.hpp"
#include "failure.hpp"
#include "open_notebook.hpp"
#include "print_options.hpp"
#include "screen.hpp"
#include "usage.hpp"

namespace areo::cli {
namespace {

constexpr std::int64_t not_given = std::numeric_limits<std::int64_t>::min();

struct Options {
  std::string name, at, on, by, place, customer;
  std::int64_t calibration = not_given;
  PrintOptions print;
};

void check_options(const Options& o, const Session& session) {
  refuse_together(o.calibration != not_given, "--calibration", !o.at.empty(), "--at",
                  "name the calibration, or a day on which it was in force");
  check_print_options(o.print, session);
  if (format_of(o.print) == PrintFormat::csv)
    throw UsageError{"a certificate is no table", "let the name end in .txt, .md, .html or .pdf"};
}

// What to do about an instrument that has no calibration.
std::string what_to_do(const notebook::Notebook& book, const notebook::InstrumentRecord& r) {
  const std::string& name = r.name();
  const auto checks = book.checks(r.id);
  if (!checks.empty())
    return fit(book, r, checks).consistent
               ? fmt::format("put its checks in force: areo calibrate fit {}", shell_word(name))
               : fmt::format(
                     "its checks contradict each other: areo calibrate fit {} says which "
                     "one to repeat",
                     shell_word(name));
  return fmt::format("check it first: areo calibrate {}, then areo calibrate fit {}",
                     r.thermometer() != nullptr
                         ? fmt::format("ice {} READING", shell_word(name))
                         : fmt::format("water {} READING TEMP", shell_word(name)),
                     shell_word(name));
}

notebook::CalibrationRecord chosen(const notebook::Notebook& book,
                                   const notebook::InstrumentRecord& instrument, const Options& o,
                                   Moment issued) {
  const std::string& name = instrument.name();
  const auto all = book.calibrations(instrument.id);
  if (all.empty())
    throw Error{Errc::domain, fmt::format("{} has no calibration to certify", name),
                what_to_do(book, instrument)};
  if (o.calibration != not_given) {
    for (const notebook::CalibrationRecord& r : all)
      if (r.id == o.calibration) return r;
    throw Error{Errc::domain, fmt::format("{} has no calibration {}", name, o.calibration),
                fmt::format("areo calibrate show {} lists them", shell_word(name))};
  }
  const Moment at = o.at.empty() ? issued : past_day_end_from_text(o.at, now());
  if (const auto* r = notebook::newest(all, at)) return *r;
  throw Error{Errc::domain, fmt::format("no calibration of {} was in force on {}", name, at.date()),
              fmt::format("the first came into force on {}", all.front().in_force_from.date())};
}

void write_lines(const std::string& path, const std::vector<std::string>& lines) {
  if (path.empty()) {
    for (const std::string& text : lines) raw_line(text);  // laid out already
    return;
  }
  publish::write_file(path, [&](std::ostream& out) {
    for (const std::string& text : lines) out << text << '\n';
  });
}

void write(const document::Document& d, const PrintOptions& o) {
  const PrintFormat format = format_of(o);
  if (format == PrintFormat::markdown || format == PrintFormat::text) {
    write_lines(o.out, format == PrintFormat::text
                           ? document::text_of(d, o.out.empty() ? screen_columns() : file_columns())
                           : document::markdown_of(d));
    return;
  }
  const std::string page = document::page_of(d, paper_of(o));
  if (o.out.empty())
    raw_line(page);
  else
    publish::write_html(o.out, page, format == PrintFormat::pdf);
}

int run_certificate(const Options& o, const Session& session) {
  check_options(o, session);
  const std::string& file = o.print.out;
  if (!file.empty()) publish::refuse_same(file, notebook_path(session), "the notebook");
  const paper::Issue issue{o.on.empty() ? now() : past_day_end_from_text(o.on, now()), o.by,
                           o.place, o.customer, session.full};
  const notebook::Notebook book = open_notebook(session, notebook::Open::read);
  const notebook::InstrumentRecord instrument = book.instrument(o.name);
  const notebook::CalibrationRecord calibration = chosen(book, instrument, o, issue.on);
  const paper::Certified c = paper::certified(book, instrument, calibration, issue);
  if (issue.on < c.fitted.checks.back().made_at)
    throw Error{Errc::inconsistent,
                fmt::format("issued on {}, before its last check of {}", issue.on.date(),
                            c.fitted.checks.back().made_at.date()),
                "a certificate is made after the checks"};
  const document::Document d = paper::certificate_document(c);
  if (!file.empty() || !session.json) write(d, o.print);
  if (session.json) {
    raw_line(paper::certificate_json(c, file));
    return done;
  }
  if (file.empty()) return done;
  line("certificate " + c.number);
  line(file + ": " + d.title);
  return done;
}

}  // namespace

void setup_certificate(const Command& app, const Session& session, Run& run) {
  const auto o = std::make_shared<Options>();
  auto c = app.add_subcommand("certificate", "the certificate of your own calibration, to print");
  c.add_option("name", o->name, "the instrument").required();
  c.add_option("--calibration", o->calibration,
               "an earlier one, as areo calibrate show numbers them")
      .type_name("N");
  c.add_option("--at", o->at, "the one in force on that day; on the day of issue unless stated")
      .type_name("DATE");
  add_print_options(c, o->print, {"text", "markdown", "html", "pdf"});
  c.add_option("--by", o->by, "who made the checks and answers for them").type_name("NAME");
  c.add_option("--place", o->place, "where they were made").type_name("TEXT");
  c.add_option("--for", o->customer, "for whom").type_name("NAME");
  c.add_option("--on", o->on, "day of issue; today unless stated").type_name("DATE");
  c.footer(
      "Examples:\n  areo certificate stem-1\n"
      "  areo certificate stem-1 --out stem-1.pdf --by 'the owner' --place 'kitchen'\n"
      "  areo certificate stem-1 --calibration 1 --format markdown");
  c.callback([=, &session, &run] { run = [=, &session] { return run_certificate(*o, session); }; });
}

}  // namespace areo::cli
