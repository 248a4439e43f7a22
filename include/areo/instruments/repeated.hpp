// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Several readings of one sample with one instrument: how well the eye's part of their mean is
// known.
#include <limits>
#include <span>
#include <string>

#include "areo/uncertainty/repeatability.hpp"

namespace areo::instruments {

/// The mean of repeated readings, as far as it is known by their scatter.
struct Repeated {
  double mean = 0;
  double u = 0;  ///< standard uncertainty of the mean, unit of the scale
  double degrees_of_freedom = std::numeric_limits<double>::infinity();
  bool type_a = false;     ///< from observed scatter, else from the scale
  std::string provenance;  ///< "mean of 3 readings, pooled from 12 samples"
};

/// From this many degrees of freedom on, the observed scatter replaces what is assumed of an eye at
/// a scale: s is then known to about a third ([gum] table E.1). A judgement.
inline constexpr double enough_degrees_of_freedom = 5;

/// The mean of n readings:
/// - with enough_degrees_of_freedom of pooled repeatability u = s / √n (also for n = 1);
/// - else as for one reading (triangular within `half_width`), over √n, or the readings' own
///   s / √n if that is larger;
/// - never less than the step of what was noted over √12, because averaging cannot see below the
///   steps of a scale [gum] F.2.2.1. So the resolution is counted once.
/// @param readings    one or more, finite
/// @param half_width  of one reading by eye, > 0; what is noted has steps of this size
/// @param pooled      of this person and instrument, with these readings in it
/// @throws Error{domain} for no readings, NaN or a half-width that is not above zero
/// @check  1.048, 1.047, 1.048 within 0.001, nothing pooled -> 1.04767, u = 0.00033 from s / √3
[[nodiscard]] Repeated mean_of(std::span<const double> readings, double half_width,
                               const uncertainty::Repeatability& pooled);

}  // namespace areo::instruments
