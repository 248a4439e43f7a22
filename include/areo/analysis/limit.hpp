// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// What can be said of a strength from above and from below: its bounds, and on which side of a
// limit it lies. Every printed bound and verdict comes from here, so they cannot contradict each
// other: a strength is below a limit if, and only if, its upper bound at the same level is not
// above it.
#include <optional>
#include <span>

#include "areo/measurement/alcohol.hpp"
#include "areo/measurement/original.hpp"
#include "areo/uncertainty/decision.hpp"

namespace areo::analysis {

/// Probability of a bound and of a verdict unless another is stated; one-sided. (A figure's ± holds
/// the strength with the same 95 % between two ends.)
inline constexpr double usual_level = 0.95;

/// Samples of a strength (uncertainty::MonteCarloOutput::sample), to be asked instead of the law of
/// propagation.
struct StrengthSamples {
  std::span<const double> strength{};
  std::span<const double> clean_yeast{};  ///< where AlcoholResult::clean_yeast is set
};

/// The bounds of a strength, no less than zero. For a mixed culture the upper one holds for clean
/// yeast, too, as what may have become acids is no reason to be surer. An upper bound only
/// (Fermentation::bound) has nothing below it: there `lower` is zero.
/// @param drink  of alcohol() or the refractometer's functions, with a strength
/// @param level  above 0.5, to 0.9999
/// @throws       Error{domain} for a result without strength, other levels, and as
///               uncertainty::bounds()
[[nodiscard]] uncertainty::Bounds strength_bounds(const measurement::AlcoholResult& drink,
                                                  double level = usual_level);
[[nodiscard]] uncertainty::Bounds strength_bounds(const measurement::AlcoholResult& drink,
                                                  const StrengthSamples& samples,
                                                  double level = usual_level);

/// Decides at a level of probability [jcgm106], from the bounds. What is an upper bound and no
/// figure (AlcoholResult::has_bound_only) can lie below a limit, never above it. Both probabilities
/// hold for all that a mixed culture may have done; for an acetic one that of being below is the
/// one of a clean yeast ferment, a lower bound of the true one, and that of being above is zero.
/// @throws Error{domain} as strength_bounds()
[[nodiscard]] uncertainty::Decision decide_strength(const measurement::AlcoholResult& drink,
                                                    double limit, double level = usual_level);
[[nodiscard]] uncertainty::Decision decide_strength(const measurement::AlcoholResult& drink,
                                                    const StrengthSamples& samples, double limit,
                                                    double level = usual_level);

/// The smallest indication of the hydrometer at which the strength would be decided to lie below
/// the limit, all else as read: a higher one means less alcohol.
/// @return nothing if even an unchanged gravity would not decide: the instruments are too coarse
[[nodiscard]] std::optional<double> least_indication_below(
    const measurement::HydrometerSample& present, const measurement::Original& original,
    ferment::Culture culture, double limit, double level = usual_level);

}  // namespace areo::analysis
