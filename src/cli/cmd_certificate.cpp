// SPDX-License-Identifier: GPL-3.0-or-later
// areo certificate: the certificate of a user's own calibration.
#include <fmt/format.h>

#include <limits>
#include <memory>

#include "areo/core/error.hpp"
#include "areo/paper/certificate.hpp"
#include "areo/publish/write_file.hpp"
#include "command.hpp"
#include "failure.hpp"
#include "open_notebook.hpp"
#include "print_options.hpp"
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
  refuse_csv(o.print, "a certificate");
}

notebook::CalibrationRecord chosen(const notebook::Notebook& book,
                                   const notebook::InstrumentRecord& instrument, const Options& o,
                                   Moment issued) {
  if (o.calibration != not_given)
    return paper::numbered_calibration(book, instrument, o.calibration);
  return paper::calibration_in_force(book, instrument,
                                     o.at.empty() ? issued : past_day_end_from_text(o.at, now()));
}

int run_certificate(const Options& o, const Session& session) {
  check_options(o, session);
  const std::string& file = o.print.out;
  if (!file.empty()) publish::refuse_same(file, notebook_path(session), "the notebook");
  const paper::Issue issue{o.on.empty() ? now() : past_day_end_from_text(o.on, now()), o.by,
                           o.place, o.customer, session.full};
  const notebook::Notebook book = open_notebook(session, notebook::Open::read);
  const notebook::InstrumentRecord instrument = book.instrument(o.name);
  const paper::Certified c =
      paper::certified(book, instrument, chosen(book, instrument, o, issue.on), issue);
  const document::Document d = paper::certificate_document(c);
  if (!file.empty() || !session.json) print_document(d, o.print);
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
      .date();
  add_print_options(c, o->print, {"text", "markdown", "html", "pdf"});
  c.add_option("--by", o->by, "who made the checks and answers for them").type_name("NAME");
  c.add_option("--place", o->place, "where they were made").type_name("TEXT");
  c.add_option("--for", o->customer, "for whom").type_name("NAME");
  c.add_option("--on", o->on, "day of issue; today unless stated").date();
  c.footer(
      "Examples:\n  areo certificate stem-1\n"
      "  areo certificate stem-1 --out stem-1.pdf --by 'the owner' --place 'kitchen'\n"
      "  areo certificate stem-1 --calibration 1 --format markdown");
  c.callback([=, &session, &run] { run = [=, &session] { return run_certificate(*o, session); }; });
}

}  // namespace areo::cli
