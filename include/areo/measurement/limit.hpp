#pragma once
// A strength against a limit: below, above, or not to be told with these instruments.
#include <optional>
#include <span>

#include "areo/measurement/alcohol.hpp"
#include "areo/measurement/original.hpp"
#include "areo/uncertainty/decision.hpp"

namespace areo::measurement {

/// Decides at a level of probability [jcgm106]. Where the result is an upper bound only
/// (Fermentation::bound) it can lie below a limit, never above it; the probability is then that of
/// a clean yeast ferment, and a lower bound of the true one.
/// @param drink  of alcohol() or the refractometer's functions, in a state with a strength
/// @param level  above 0.5, to 0.9999
/// @throws       Error{domain} for a result without strength or other levels
[[nodiscard]] uncertainty::Decision decide_strength(const AlcoholResult& drink, double limit,
                                                    double level = 0.95);
/// The same from a sample of the strength.
/// @param sorted  as uncertainty::decide()
[[nodiscard]] uncertainty::Decision decide_strength(const AlcoholResult& drink,
                                                    std::span<const double> sorted, double limit,
                                                    double level = 0.95);

/// The decision about a mixed culture's strength: below only where it would be so for clean yeast,
/// too, as what may have become acids is no reason to be surer.
[[nodiscard]] uncertainty::Decision decide_mixed(uncertainty::Decision mixed,
                                                 const uncertainty::Decision& yeast);

/// The smallest indication of the hydrometer at which the strength would be decided to lie below
/// the limit, all else as read: a higher one means less alcohol.
/// @return nothing if even an unchanged gravity would not decide: the instruments are too coarse
[[nodiscard]] std::optional<double> least_indication_below(const HydrometerSample& present,
                                                           const Original& original,
                                                           ferment::Culture culture, double limit,
                                                           double level = 0.95);

}  // namespace areo::measurement
