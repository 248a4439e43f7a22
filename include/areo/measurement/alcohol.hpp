// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Original and present gravity to alcohol, extract, attenuation and energy.
#include <optional>

#include "areo/ferment/culture.hpp"
#include "areo/measurement/correct.hpp"
#include "areo/measurement/result.hpp"

namespace areo::measurement {

/// What the two readings allow to say.
enum class Fermentation {
  measured,   ///< the quantities stand
  no_change,  ///< the change is not larger than its uncertainty: an upper bound, no more
  above,      ///< present above original beyond the uncertainty: no alcohol can be computed
  /// Density and index of one sample give less alcohol than none, beyond their uncertainty.
  contradiction,
  bound,  ///< the culture uses up alcohol: an upper bound, no more
};

struct AlcoholResult {
  Fermentation state = Fermentation::measured;
  /// measured and no_change: alcohol_percent_vol, alcohol_percent_mass, sg_20_20_original,
  /// sg_20_20_present, original_extract_percent, real_extract_percent, apparent_extract_percent,
  /// apparent_attenuation_percent, real_attenuation_percent, energy_kj_per_100_ml,
  /// rule_of_thumb_percent_vol.  above: sg_20_20_original and sg_20_20_present only.
  Result result;
  /// Of a mixed culture with a strength: the same as if clean yeast had fermented it. What holds
  /// below a bound has to hold for it, too (strength_bounds(), decide_strength()).
  std::optional<Result> clean_yeast{};

  /// Bubbles may have lifted the hydrometer in the present drink: it is at least as strong as this.
  bool lifted = false;

  /// Whether there is one, be it an upper bound only.
  [[nodiscard]] bool has_strength() const {
    return state != Fermentation::above && state != Fermentation::contradiction;
  }
  /// Whether it is an upper bound and no figure.
  [[nodiscard]] bool has_bound_only() const {
    return state == Fermentation::no_change || state == Fermentation::bound;
  }
};

/// Balling's balance and the density of the drink. What a ferment makes of its extract is an input
/// (ferment::yield_uncertainty): 2.8 % of the strength here, some 4 % by refraction.
/// @param culture  mixed lowers the strength by what may have become acids; acetic leaves an upper
///                 bound, the strength of a clean yeast ferment
/// @param original_instrument  may be the same instrument as `instrument`, which its identity
///        tells, not its name. Then both readings share its calibration, glass and meniscus, and
///        the difference profits.
/// @throws Error{domain} for readings off the scales; Error{inconsistent} if the present gravity is
///         lower than fermenting everything could make it
[[nodiscard]] AlcoholResult alcohol(const Calibrated& instrument,
                                    const instruments::HydrometerReading& present,
                                    const Calibrated& original_instrument,
                                    const instruments::HydrometerReading& original,
                                    ferment::Culture culture = ferment::Culture::yeast);

/// The state of a strength that was computed: whether it stands as a figure.
[[nodiscard]] Fermentation state_of(const Result& drink, ferment::Culture culture);

}  // namespace areo::measurement
