// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/wording/calibration_history.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <span>

#include "areo/calibration/fit.hpp"
#include "areo/notebook/recompute.hpp"
#include "areo/text/json.hpp"
#include "areo/wording/check.hpp"
#include "areo/wording/drift.hpp"
#include "areo/wording/instrument.hpp"

namespace areo::wording {

using notebook::CheckRecord;
using notebook::InstrumentRecord;

std::string in_force_text(const notebook::CalibrationRecord& c) {
  return fmt::format("in force from {}{}", c.in_force_from.date(),
                     c.due ? ", due for a check on " + c.due->date() : "");
}

std::vector<std::string> calibration_lines(const notebook::Notebook& book,
                                           const InstrumentRecord& instrument) {
  std::vector<std::string> all;
  const notebook::CalibrationRecord* before = nullptr;
  const auto calibrations = book.calibrations(instrument.id);
  for (const auto& c : calibrations) {
    all.push_back(fmt::format("  calibration {}: check{} {}, {}{}", c.id,
                              c.checks.size() == 1 ? "" : "s", fmt::join(c.checks, ", "),
                              in_force_text(c), c.note.empty() ? "" : "; " + c.note));
    if (before != nullptr)
      for (const std::string& text :
           drift_lines(instrument, *before, drift(book, instrument, *before, c)))
        all.push_back("  " + text);
    before = &c;
  }
  return all;
}

std::string calibrations_json(const notebook::Notebook& book, const InstrumentRecord& instrument) {
  std::string out;
  const notebook::CalibrationRecord* before = nullptr;
  const auto all = book.calibrations(instrument.id);
  for (const auto& c : all) {
    out += fmt::format(
        R"({}{{"calibration":{},"checks":[{}],"in_force_from":{},"from_stated":{},"due":{},"note":{},"drift":{}}})",
        out.empty() ? "" : ",", c.id, fmt::join(c.checks, ","), moment_json(c.in_force_from),
        c.from_stated, moment_json(c.due), text::json_string(c.note),
        before != nullptr ? drift_json(*before, drift(book, instrument, *before, c)) : "null");
    before = &c;
  }
  return "[" + out + "]";
}

std::vector<std::string> left_out_lines(const notebook::Notebook& book,
                                        const InstrumentRecord& instrument,
                                        const std::vector<CheckRecord>& used) {
  std::vector<std::string> all;
  for (const CheckRecord& r : book.checks(instrument.id)) {
    if (std::any_of(used.begin(), used.end(), [&](const auto& u) { return u.id == r.id; }))
      continue;
    all.push_back(
        "  " +
        check_text(instrument, r, evaluate(book, instrument, std::span{&r, 1}).checks.front()) +
        (used.empty() ? "" : "; not used"));
  }
  return all;
}

std::string fit_json(const FitSummary& f, const std::optional<Moment>& in_force_from,
                     const std::string& members) {
  const auto& c = f.fit.correction;
  return fmt::format(
      R"({{"instrument":{},"r0":{},"offset":{},"offset_standard_uncertainty":{},"slope":{},)"
      R"("slope_standard_uncertainty":{},"beyond_standard_uncertainty":{},)"
      R"("surface_standard_uncertainty":{},"slope_used":{},"checked_from":{},"checked_to":{},)"
      R"("checks":{},"chi_squared":{},"degrees_of_freedom":{},"consistent":{},"suspect":{},)"
      R"("conformity":{},"tolerance":{},"unit":"{}","in_force_from":{}{},"notes":{}}})",
      text::json_string(f.instrument.name()), c.r0, c.offset, c.u_offset, c.slope, c.u_slope,
      c.u_slope_beyond, std::abs(c.u_surface), f.fit.slope_used, c.checked_lo, c.checked_hi,
      c.checks, f.fit.line.chi_squared, f.fit.line.degrees_of_freedom, f.fit.consistent,
      f.fit.suspect ? std::to_string(f.checks[*f.fit.suspect].id) : "null",
      f.fit.consistent ? fmt::format("\"{}\"", conformity_word(calibration::judge(c, f.tolerance)))
                       : "null",
      f.tolerance, unit_of(f.instrument), moment_json(in_force_from), members,
      text::json_list(f.remarks));
}

}  // namespace areo::wording
