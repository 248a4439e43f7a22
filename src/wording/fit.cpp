// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/wording/fit.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "areo/core/told_apart.hpp"
#include "areo/notebook/recompute.hpp"
#include "areo/text/format.hpp"
#include "areo/wording/check.hpp"
#include "areo/wording/instrument.hpp"

namespace areo::wording {
namespace {

using notebook::CheckRecord;
using notebook::InstrumentRecord;

uncertainty::Value correction_at(const instruments::Correction& c, double indication) {
  return {c.at(indication), c.uncertainty_at(indication)};
}

// The verdict for people; if there is none, the reason.
const char* sentence(calibration::Conformity c, bool consistent) {
  switch (c) {
    case calibration::Conformity::within: return "kept";
    case calibration::Conformity::outside:
      return consistent ? "EXCEEDED; with the correction it serves" : "EXCEEDED";
    case calibration::Conformity::cannot_tell: return "these checks cannot tell";
  }
  return "";
}

}  // namespace

FitSummary fit_summary(const notebook::Notebook& book, const InstrumentRecord& instrument,
                       std::vector<CheckRecord> checks) {
  return {instrument,
          checks,
          evaluate(book, instrument, checks),
          fit(book, instrument, checks),
          instrument.graduation().maximum_permissible_error,
          remarks_on_thermometers(book, checks)};
}

std::string check_text(const InstrumentRecord& instrument, const CheckRecord& r,
                       const calibration::Check& c) {
  return fmt::format("check {}: {}{}: shows {}, should show {}", r.id, c.label,
                     r.temperature_c ? " at " + text::celsius_text(*r.temperature_c) : "",
                     shown(instrument, c.indication),
                     text::value_text(c.expected, unit_of(instrument)));
}

std::string instruction_text(const FitSummary& f) {
  const auto& c = f.fit.correction;
  const std::string unit = unit_of(f.instrument);
  const auto one = [&](double r, int place) {
    return instruction_where_checked(f.instrument, c, c.at(r), place);
  };
  if (checked_at_one_place(c))
    return one(c.r0, text::last_place(correction_at(c, c.r0).expanded()));
  // Both ends to the digits that the one known less well has.
  const double least_known = std::max(correction_at(c, c.checked_lo).expanded(),
                                      correction_at(c, c.checked_hi).expanded());
  const int place = text::last_place(least_known);
  if (text::instruction(c.at(c.checked_lo), place) == text::instruction(c.at(c.checked_hi), place))
    return one(c.checked_lo, place);
  const auto instruction_at = [&](double r) { return text::instruction(c.at(r), place, unit); };
  return fmt::format("{} at {}, {} at {}, in between in proportion", instruction_at(c.checked_lo),
                     shown(f.instrument, c.checked_lo), instruction_at(c.checked_hi),
                     shown(f.instrument, c.checked_hi));
}

std::string agreement_text(const FitSummary& f) {
  if (!f.fit.chi_squared_limit) return "nothing is left to test this by; one more check would tell";
  const int decimals = telling_place(f.fit.line.chi_squared, *f.fit.chi_squared_limit, 1);
  return fmt::format("the checks {}: chi-squared {:.{}f}, limit {:.{}f} at 95 %",
                     f.fit.consistent ? "agree" : "DISAGREE", f.fit.line.chi_squared, decimals,
                     *f.fit.chi_squared_limit, decimals);
}

std::string verdict_text(const FitSummary& f) {
  const std::string unit = unit_of(f.instrument);
  return fmt::format("maximum permissible error {:.3g}{} {}: {}", f.tolerance,
                     unit.empty() ? "" : " " + unit,
                     checked_at_one_place(f.fit.correction)
                         ? "at this place"
                         : "in this range, if the error runs straight between its checks",
                     sentence(calibration::judge(f.fit.correction, f.tolerance), f.fit.consistent));
}

std::vector<std::string> fit_lines(const FitSummary& f) {
  std::vector<std::string> lines;
  const auto line = [&](std::string text) { lines.push_back(std::move(text)); };
  const auto& c = f.fit.correction;
  line(fmt::format("{}: {}", f.instrument.name(), instruction_text(f)));
  line(fmt::format("  correction at {:.4g}: {}", c.r0,
                   text::value_text(correction_at(c, c.r0), unit_of(f.instrument))));
  line(fmt::format("  checked {} in {}; {}", checked_text(f.instrument, c), c.provenance,
                   f.fit.reason));
  for (std::size_t i = 0; i < f.checks.size(); ++i) {
    const calibration::Check& check = f.evaluated.checks[i];
    line(fmt::format("  {}, off the fit by {}", check_text(f.instrument, f.checks[i], check),
                     signed_text(f.fit.residuals[i], check.correction.expanded())));
  }
  for (const std::string& remark : f.remarks) line("note: " + remark);
  line("  " + agreement_text(f));
  if (f.fit.consistent)
    line("  " + verdict_text(f));  // none from checks that contradict each other
  return lines;
}

}  // namespace areo::wording
