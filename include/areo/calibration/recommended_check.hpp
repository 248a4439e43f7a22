// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// What a check at the kitchen table would leave of an instrument's error, before it is made.
#include <optional>
#include <vector>

#include "areo/calibration/solution.hpp"
#include "areo/instruments/correction.hpp"
#include "areo/instruments/hydrometer.hpp"
#include "areo/instruments/refractometer.hpp"

namespace areo::calibration {

/// A check to come, and the correction that it would support.
struct RecommendedCheck {
  bool water = true;                       ///< water is on the scale, and the first check
  std::vector<WeighedSolution> solutions;  ///< of sugar, half a kilogram each, weakest first
  instruments::Correction correction;      ///< its uncertainty is the point; it corrects nothing
};

/// Water and two weighed sugar solutions, half and nine tenths up the part of the scale that sugar
/// reaches; a scale that begins above water gets a third solution, one tenth up, instead. All at
/// (20.0 ± 0.5) °C, weighed to 1 g and read level to half a division, on an instrument that shows
/// exactly what it should: evaluated and fitted as real checks are.
/// @return nothing if neither water nor sugar up to 60 % by mass (it dissolves to about 66 % at
///         20 °C, from memory) spans a part of the scale
/// @throws Error{domain} for a division that is not above zero, or a scale without length
[[nodiscard]] std::optional<RecommendedCheck> recommended_check(const instruments::Hydrometer& h);
[[nodiscard]] std::optional<RecommendedCheck> recommended_check(
    const instruments::Refractometer& r);

}  // namespace areo::calibration
