// SPDX-License-Identifier: GPL-3.0-or-later
#include <cmath>
#include <utility>

#include "areo/notebook/recompute.hpp"
#include "areo/wording/calibration_history.hpp"
#include "areo/wording/check.hpp"
#include "areo/wording/instrument.hpp"
#include "record_value.hpp"

namespace areo::wording {
namespace {

using notebook::CalibrationRecord;
using notebook::InstrumentRecord;

// All calibrations of an instrument, each with what changed since the one before.
text::Json history_value(const notebook::Notebook& book, const InstrumentRecord& instrument) {
  text::Json history = text::Json::array();
  const CalibrationRecord* before = nullptr;
  const auto all = book.calibrations(instrument.id);
  for (const CalibrationRecord& c : all) {
    history.push_back(
        {{"calibration", c.id},
         {"checks", c.checks},
         {"in_force_from", c.in_force_from.text()},
         {"from_stated", c.from_stated},
         {"due", text::moment_json(c.due)},
         {"note", c.note},
         {"drift", before == nullptr ? text::Json()
                                     : drift_value(*before, drift(book, instrument, *before, c))}});
    before = &c;
  }
  return history;
}

// What every fit has; its notes come last.
text::Json fit_value(const FitSummary& f, const std::optional<Moment>& in_force_from) {
  const auto& c = f.fit.correction;
  text::Json conformity;
  if (f.fit.consistent) conformity = conformity_word(calibration::judge(c, f.tolerance));
  text::Json suspect;
  if (f.fit.suspect) suspect = f.checks[*f.fit.suspect].id;
  return {{"instrument", f.instrument.name()},
          {"r0", text::number_json(c.r0)},
          {"offset", text::number_json(c.offset)},
          {"offset_standard_uncertainty", text::number_json(c.u_offset)},
          {"slope", text::number_json(c.slope)},
          {"slope_standard_uncertainty", text::number_json(c.u_slope)},
          {"beyond_standard_uncertainty", text::number_json(c.u_slope_beyond)},
          {"surface_standard_uncertainty", text::number_json(std::abs(c.u_surface))},
          {"slope_used", f.fit.slope_used},
          {"checked_from", text::number_json(c.checked_lo)},
          {"checked_to", text::number_json(c.checked_hi)},
          {"checks", c.checks},
          {"chi_squared", text::number_json(f.fit.line.chi_squared)},
          {"degrees_of_freedom", f.fit.line.degrees_of_freedom},
          {"consistent", f.fit.consistent},
          {"suspect", std::move(suspect)},
          {"conformity", std::move(conformity)},
          {"tolerance", text::number_json(f.tolerance)},
          {"unit", unit_of(f.instrument)},
          {"in_force_from", text::moment_json(in_force_from)}};
}

}  // namespace

std::string fit_json(const FitSummary& f, const CalibrationRecord& record,
                     const CalibrationChange& change) {
  const bool in_force = f.fit.consistent;
  text::Json j = fit_value(f, in_force ? std::optional{record.in_force_from} : std::nullopt);
  j["due"] = text::moment_json(in_force ? record.due : std::nullopt);
  j["drift"] = change.drift ? drift_value(*change.before, *change.drift) : text::Json();
  j["changes"] = changes_value(change.changes);
  j["notes"] = f.remarks;
  return text::dump(j);
}

std::string calibration_json(const notebook::Notebook& book, const FitSummary& f,
                             const CalibrationRecord& in_force) {
  text::Json j = fit_value(f, in_force.in_force_from);
  j["due"] = text::moment_json(in_force.due);
  j["history"] = history_value(book, f.instrument);
  j["notes"] = f.remarks;
  return text::dump(j);
}

std::string no_calibration_json(const InstrumentRecord& instrument,
                                const std::vector<std::string>& remarks) {
  return text::dump({{"instrument", instrument.name()},
                     {"checks", 0},
                     {"in_force_from", nullptr},
                     {"due", nullptr},
                     {"history", text::Json::array()},
                     {"notes", remarks}});
}

}  // namespace areo::wording
