// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Where the uncertainty of a fitted correction comes from, and where on the scale to tell it.
#include <cstddef>
#include <vector>

#include "areo/calibration/fit.hpp"

namespace areo::calibration {

/// The uncertainty of a correction at one place of the scale, taken apart.
struct CorrectionBudget {
  double indication = 0;
  uncertainty::Value correction;  ///< as Correction::at() and uncertainty_at() give it
  /// Signed contribution of each of the set's inputs, in its order, in the unit of the scale.
  std::vector<double> shares;
  /// Standard uncertainty from a slope that the checks do not show, and from a scale that nobody
  /// checked where it is outside the checked range.
  double slope = 0, beyond = 0;
};

/// The fitted line is a weighted sum of the checks' corrections, so its shares are the same sum of
/// theirs: what the checks share adds up, what each has alone averages out.
/// @param set  the one that was fitted, with its inputs
/// @throws Error{domain} if the set has no shares, or for a place that is not finite
/// @source [gum] 5.1.2, E.3
[[nodiscard]] CorrectionBudget correction_budget(const CheckSet& set, const CorrectionFit& fit,
                                                 double indication);

/// The checks that depend on an input, by their place in the set: several share it. A contribution
/// below a millionth of the check's uncertainty does not count.
/// @throws Error{domain} if there is no such input
[[nodiscard]] std::vector<std::size_t> checks_with(const CheckSet& set, std::size_t input);

/// Marks at which to tell a correction: the ends of the scale and of the checked range, and round
/// ones between, ascending.
/// @param lo,hi  ends of the scale, lo < hi, finite
/// @throws Error{domain} for other ends
/// @check  0.990 to 1.100, checked from 1.001 to 1.083 ->
///         0.990, 1.001, 1.020, 1.040, 1.060, 1.083, 1.100
[[nodiscard]] std::vector<double> correction_marks(const instruments::Correction& c, double lo,
                                                   double hi);

}  // namespace areo::calibration
