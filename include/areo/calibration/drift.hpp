// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Did an instrument change from one calibration to the next?
#include <cstddef>
#include <span>
#include <vector>

#include "areo/calibration/check.hpp"

namespace areo::calibration {

/// Some checks of a set, by their place in it.
using Selection = std::vector<std::size_t>;

/// What changed at one place of the scale.
struct DriftPoint {
  double indication = 0;
  double difference = 0;  ///< correction after minus before
  double u = 0;           ///< standard uncertainty of the difference
  double expanded = 0;    ///< U, with which all points together hold in about 95 %
  double en = 0;          ///< difference / U
};

enum class DriftVerdict {
  none_seen,        ///< no |En| is above 1
  drifted,          ///< one is
  no_common_range,  ///< cannot be compared: no part of the scale was checked both times
  same_checks,      ///< cannot be compared: both rest on the very same checks
};

struct Drift {
  DriftVerdict verdict = DriftVerdict::no_common_range;
  /// Lower end, middle and upper end of the part that was checked both times; one point if that is
  /// narrower than one_place_divisions.
  std::vector<DriftPoint> points;
};

/// Compares the corrections that two selections of checks give, each by the model that
/// fit_correction() takes for it. The checks were evaluated together, so what they share (glass,
/// meniscus, thermometer, what the scale was made for, solute, a check in both) cancels as far as
/// it does: the difference is linear in the checks' corrections, and its variance follows from
/// their covariance. Both count with the whole slope that their checks show, not with the part that
/// a correction takes of it; one whose checks stand at one place is an offset, and away from that
/// place the usual slope is unknown.
/// U is 1.96 u for a difference that is the same everywhere, and for one that is a line the root of
/// the 95 % point of chi-squared for two degrees of freedom, 2.45 u, so that the whole line is
/// meant at once. An instrument that did not change is called drifted about once in twenty times.
/// @param together     evaluated at once
/// @param before,after not empty; a check may be in both
/// @param division,length of the scale, > 0
/// @throws Error{domain} for an empty selection, a check that is not in the set, numbers that are
///         not finite, or as fit_correction()
/// @source En of [iso13528] and [iso17043], usually stated for results that are independent; ours
///         keeps their covariance
[[nodiscard]] Drift drift(const CheckSet& together, std::span<const std::size_t> before,
                          std::span<const std::size_t> after, double division, double length);

}  // namespace areo::calibration
