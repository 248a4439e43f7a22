// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/wording/drift.hpp"

#include <fmt/format.h>

#include <cmath>

#include "areo/core/told_apart.hpp"
#include "areo/text/format.hpp"
#include "areo/wording/check.hpp"
#include "areo/wording/instrument.hpp"
#include "record_value.hpp"

namespace areo::wording {
namespace {

using calibration::Drift;
using calibration::DriftPoint;
using calibration::DriftVerdict;
using notebook::CalibrationRecord;
using notebook::InstrumentRecord;

const char* sentence(DriftVerdict v) {
  switch (v) {
    case DriftVerdict::none_seen: return "no drift seen";
    case DriftVerdict::drifted: return "DRIFTED";
    case DriftVerdict::no_common_range:
      return "cannot be compared, no part of the scale was checked both times";
    case DriftVerdict::same_checks: return "cannot be compared, the checks are the same";
  }
  return "";
}

const char* word(DriftVerdict v) {
  switch (v) {
    case DriftVerdict::none_seen: return "no_drift_seen";
    case DriftVerdict::drifted: return "drifted";
    case DriftVerdict::no_common_range: return "no_common_range";
    case DriftVerdict::same_checks: return "same_checks";
  }
  return "";
}

// "by -0.0011 ± 0.0012, En -0.92,", or "by 0"
std::string change_text(const DriftPoint& p, const std::string& unit) {
  // Both rest on the same check there, and what is left is what doubles lose: no scale shows it.
  constexpr double shown_by_none = 1e-9;
  if (std::abs(p.difference) < shown_by_none && p.expanded < shown_by_none) return "by 0";
  const int more = telling_digits(p.difference, p.expanded);
  return fmt::format("by {} ± {}{}, En {},", signed_text(p.difference, p.expanded, more),
                     text::fixed(p.expanded, text::last_place(p.expanded) + more),
                     unit.empty() ? "" : " " + unit, en_text(p.en));
}

// Without a slope on either side the same number holds everywhere.
bool same_everywhere(const Drift& d) {
  const double a_rounding = 1e-9 * d.points.front().expanded;
  return std::abs(d.points.front().difference - d.points.back().difference) < a_rounding;
}

}  // namespace

std::vector<std::string> drift_lines(const InstrumentRecord& instrument,
                                     const CalibrationRecord& before, const Drift& d) {
  const std::string unit = unit_of(instrument);
  const std::string since =
      fmt::format("since calibration {} of {}: ", before.id, before.in_force_from.date());
  if (d.points.empty()) return {since + sentence(d.verdict)};
  const std::string verdict =
      fmt::format("{}{}; the correction changed", since, sentence(d.verdict));
  const DriftPoint& first = d.points.front();
  const DriftPoint& last = d.points.back();
  if (d.points.size() == 1)
    return {fmt::format("{} {} at {}", verdict, change_text(first, unit),
                        shown(instrument, first.indication))};
  if (same_everywhere(d))
    return {fmt::format("{} {} between {} and {}", verdict, change_text(first, unit),
                        shown(instrument, first.indication), shown(instrument, last.indication))};
  std::vector<std::string> lines{verdict};
  for (const DriftPoint& p : d.points)
    lines.push_back(
        fmt::format("  {} at {}", change_text(p, unit), shown(instrument, p.indication)));
  return lines;
}

text::Json drift_value(const CalibrationRecord& before, const Drift& d) {
  text::Json points = text::Json::array();
  for (const DriftPoint& p : d.points)
    points.push_back({{"indication", text::number_json(p.indication)},
                      {"difference", text::number_json(p.difference)},
                      {"standard_uncertainty", text::number_json(p.u)},
                      {"expanded_uncertainty", text::number_json(p.expanded)},
                      {"en", text::number_json(p.en)}});
  return {{"since", before.id}, {"verdict", word(d.verdict)}, {"points", std::move(points)}};
}

}  // namespace areo::wording
