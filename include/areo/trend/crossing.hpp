// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// When a falling quantity passes a value.
#include <optional>
#include <string>

#include "areo/trend/series.hpp"

namespace areo::trend {

/// The day by the curve, and the days between which it lies. An end that stays open is missing: the
/// curve may have passed before the series begins, or may never get there.
struct Crossing {
  std::optional<double> day{};  ///< nothing if the curve ends before the value, or there is none
  std::optional<double> lo{}, hi{};
  std::string refused{};  ///< why there is no day
};

/// Fits both forms of a course; where the other one is nearly as good, the interval holds what both
/// of them say. The interval comes from the profile of chi-squared over the day itself.
/// Only what the curve says of the days that were read, and of the time after them, counts: an end
/// before the first reading is open.
/// @param series  of a quantity that falls: gravities, or strengths counted downwards
/// @param near    SG above the final gravity whose day the first fit has as a parameter, > 0
/// @param value   what is passed
/// @param level   of the interval
/// @throws Error{domain} if `near`, the value or the level is not valid
[[nodiscard]] Crossing crossing_of(const Series& series, double near, double value,
                                   double level = 0.90);

}  // namespace areo::trend
