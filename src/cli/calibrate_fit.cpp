// SPDX-License-Identifier: GPL-3.0-or-later
// areo calibrate fit, show: from checks to the correction in force.
#include <span>

#include "areo/entry/calibration_entry.hpp"
#include "areo/notebook/recompute.hpp"
#include "areo/wording/calibration_history.hpp"
#include "areo/wording/check.hpp"
#include "areo/wording/instrument.hpp"
#include "calibrate.hpp"
#include "failure.hpp"
#include "open_notebook.hpp"

namespace areo::cli {

using notebook::CheckRecord;
using notebook::InstrumentRecord;

int run_fit(const CalibrateOptions& o, const Session& session) {
  notebook::Notebook book = open_notebook(session);
  const InstrumentRecord instrument = book.instrument(o.name);
  const wording::FitSummary f = wording::fit_summary(
      book, instrument, entry::checks_to_fit(book, instrument, o.since, o.without));
  // What is wrong with the call is wrong whatever the checks say.
  const notebook::CalibrationRecord record = entry::calibration_record({o.from, o.due, o.note}, f);
  const auto earlier = book.calibrations(instrument.id);
  const notebook::CalibrationRecord* before = newest(earlier, record.in_force_from);
  const int code = f.fit.consistent ? done : said_no;
  entry::refuse_again(earlier, record, o.name);
  if (f.fit.consistent) book.add(record);
  wording::CalibrationChange change{
      .before = before,
      .changes = changed(book, instrument, earlier, book.calibrations(instrument.id))};
  if (f.fit.consistent && before) change.drift = drift(book, instrument, *before, record);
  if (session.json)
    raw_line(wording::fit_json(f, record, change));
  else
    lines(wording::new_fit_lines(f, record, change));
  return code;
}

int run_show_calibration(const CalibrateOptions& o, const Session& session) {
  const notebook::Notebook book = open_notebook(session, notebook::Open::read);
  const InstrumentRecord instrument = book.instrument(o.name);
  const auto in_force = book.in_force(instrument.id, now());
  const auto remarks = correction_in_force(book, instrument, now()).remarks;
  if (!session.json) {
    lines(wording::calibration_lines(book, instrument, in_force, remarks));
    return done;
  }
  if (in_force) {
    wording::FitSummary f = wording::fit_summary(book, instrument, checks_of(book, *in_force));
    f.remarks.insert(f.remarks.end(), remarks.begin(), remarks.end());
    raw_line(wording::calibration_json(book, f, *in_force));
  } else {
    raw_line(wording::no_calibration_json(instrument, remarks));
  }
  for (const CheckRecord& c : book.checks(instrument.id)) {
    const std::span one{&c, 1};
    raw_line(wording::check_json(c, evaluate(book, instrument, one).checks.front(),
                                 wording::unit_of(instrument), remarks_on_thermometers(book, one)));
  }
  return done;
}

}  // namespace areo::cli
