// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// How well repeated readings of one quantity agree, from all that were ever repeated.
#include <cstddef>
#include <span>
#include <vector>

namespace areo::uncertainty {

/// Scatter of single readings about the mean of their sample.
struct Repeatability {
  double s = 0;                   ///< standard deviation of one reading, unit of the readings
  double degrees_of_freedom = 0;  ///< 0: nothing is known
  std::size_t samples = 0;        ///< that were read twice or more
};

/// Pooled estimate: s² is the sum of the squares about each sample's own mean over the sum of their
/// n - 1 degrees of freedom. Samples of one reading say nothing and are passed over.
/// @param samples  readings, finite; one list a sample
/// @throws Error{domain} for NaN or infinity
/// @source [gum] 4.2.4 and H.3.6 (numbers from memory)
/// @check  {1, 3}, {2, 4, 6} -> s² = 10/3 with 3 degrees of freedom
[[nodiscard]] Repeatability pooled_repeatability(std::span<const std::vector<double>> samples);

}  // namespace areo::uncertainty
