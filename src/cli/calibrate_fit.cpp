// SPDX-License-Identifier: GPL-3.0-or-later
// areo calibrate fit, show: from checks to the correction in force.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "areo/calibration/fit.hpp"
#include "areo/core/error.hpp"
#include "areo/core/shell_word.hpp"
#include "areo/entry/calibration_entry.hpp"
#include "areo/notebook/recompute.hpp"
#include "areo/text/format.hpp"
#include "areo/wording/calibration_history.hpp"
#include "areo/wording/changes.hpp"
#include "areo/wording/check.hpp"
#include "areo/wording/drift.hpp"
#include "areo/wording/fit.hpp"
#include "areo/wording/instrument.hpp"
#include "calibrate.hpp"
#include "failure.hpp"
#include "open_notebook.hpp"

namespace areo::cli {
namespace {

// What changed since the calibration before.
void print_drift(const notebook::InstrumentRecord& instrument,
                 const notebook::CalibrationRecord& before, const calibration::Drift& drift) {
  for (const std::string& text : wording::drift_lines(instrument, before, drift)) line("  " + text);
}

void print_fit(const wording::FitSummary& f) {
  for (const std::string& text : wording::fit_lines(f)) line(text);
}

using notebook::CheckRecord;
using notebook::InstrumentRecord;

void print_contradiction(const wording::FitSummary& f) {
  line("not put in force: the checks contradict each other beyond their uncertainties");
  if (!f.fit.suspect) {
    line("next: repeat both checks; two alone cannot tell which of them is wrong");
    return;
  }
  line(
      fmt::format("next: repeat check {0}; without it the others agree best (areo calibrate fit "
                  "{1} --without {0})",
                  f.checks[*f.fit.suspect].id, shell_word(f.instrument.name())));
}

void print_in_force(const notebook::CalibrationRecord& c) {
  line(fmt::format("  {}; a user's check, not an accredited calibration",
                   wording::in_force_text(c)));
}

void print_long_pause(const wording::FitSummary& f) {
  if (const CheckRecord* first = entry::after_long_pause(f.checks))
    line(
        fmt::format("note: old and new checks are fitted together; those from {0} on alone: areo "
                    "calibrate fit {1} --since {0}",
                    first->made_at.date(), shell_word(f.instrument.name())));
}

}  // namespace

int run_fit(const CalibrateOptions& o, const Session& session) {
  notebook::Notebook book = open_notebook(session);
  const InstrumentRecord instrument = book.instrument(o.name);
  const wording::FitSummary f =
      wording::fitted(book, instrument, entry::checks_to_fit(book, instrument, o.since, o.without));
  // What is wrong with the call is wrong whatever the checks say.
  const notebook::CalibrationRecord record = entry::calibration_record({o.from, o.due, o.note}, f);
  const auto earlier = book.calibrations(instrument.id);
  const notebook::CalibrationRecord* before = newest(earlier, record.in_force_from);
  const int code = f.fit.consistent ? done : said_no;
  entry::refuse_again(earlier, record, o.name);
  if (f.fit.consistent) book.add(record);
  const auto changes = changed(book, instrument, earlier, book.calibrations(instrument.id));
  wording::CalibrationChange change{.before = before, .changes = changes};
  if (f.fit.consistent && before) change.drift = drift(book, instrument, *before, record);
  if (session.json) {
    raw_line(wording::fit_json(f, record, change));
    return code;
  }
  print_fit(f);
  if (!f.fit.consistent) {
    print_long_pause(f);
    print_contradiction(f);
    return code;
  }
  print_in_force(record);
  for (const std::string& text : wording::changes_lines(changes)) line("  " + text);
  if (change.drift) print_drift(instrument, *before, *change.drift);
  print_long_pause(f);
  line(fmt::format("next: areo {} READING --temp TEMP --{} {}",
                   instrument.refractometer() != nullptr ? "refract" : "correct",
                   instrument.thermometer() == nullptr ? "instrument" : "thermometer",
                   shell_word(o.name)));
  return code;
}

int run_show_calibration(const CalibrateOptions& o, const Session& session) {
  const notebook::Notebook book = open_notebook(session, notebook::Open::read);
  const InstrumentRecord instrument = book.instrument(o.name);
  const auto all = book.checks(instrument.id);
  const auto in_force = book.in_force(instrument.id, now());
  const auto used = in_force ? checks_of(book, *in_force) : std::vector<CheckRecord>{};
  const auto remarks = correction_in_force(book, instrument, now()).remarks;
  if (session.json) {
    if (in_force) {
      wording::FitSummary f = wording::fitted(book, instrument, used);
      f.remarks.insert(f.remarks.end(), remarks.begin(), remarks.end());
      raw_line(wording::calibration_json(book, f, *in_force));
    } else {
      raw_line(wording::no_calibration_json(instrument, remarks));
    }
    for (const CheckRecord& c : all) {
      const std::span one{&c, 1};
      raw_line(wording::check_json(c, evaluate(book, instrument, one).checks.front(),
                                   wording::unit_of(instrument),
                                   remarks_on_thermometers(book, one)));
    }
    return done;
  }
  if (in_force) {
    print_fit(wording::fitted(book, instrument, used));
    print_in_force(*in_force);
  } else {
    line(fmt::format("{}: no calibration in force; its error is taken as within one division",
                     o.name));
  }
  lines(wording::left_out_lines(book, instrument, used));
  lines(wording::calibration_lines(book, instrument));
  notes(remarks);
  if (!in_force)
    line(all.empty() ? fmt::format("next: areo calibrate {}",
                                   instrument.thermometer() == nullptr
                                       ? fmt::format("water {} READING TEMP", shell_word(o.name))
                                       : fmt::format("ice {} READING", shell_word(o.name)))
                     : fmt::format("next: areo calibrate fit {}", shell_word(o.name)));
  return done;
}

}  // namespace areo::cli
