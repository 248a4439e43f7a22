// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// What a drink is called by: strength, extract, attenuation, energy; from its composition alone.
#include "areo/core/scales.hpp"
#include "areo/core/units.hpp"
#include "areo/physics/liquid.hpp"

namespace areo::ferment {

/// Alcoholic strength by volume at 20 °C: q = A rho_drink(20) / rho_ethanol(20).
/// @source [oimlr22] for the density of ethanol
[[nodiscard]] StrengthByVolume strength_by_volume(const physics::Liquid& drink);
[[nodiscard]] StrengthByMass strength_by_mass(const physics::Liquid& drink);
/// The drink that has this strength, and density `rho` at t; inverse of strength_by_volume() and
/// physics::density(), to 1e-12.
/// @throws Error{domain} if no drink within the ranges of physics::density() has both, or for NaN
[[nodiscard]] physics::Liquid drink_of_strength(StrengthByVolume strength, Density rho,
                                                Temperature t);
/// Real extract: the extract that is there, percent by mass.
[[nodiscard]] Plato real_extract(const physics::Liquid& drink);
/// Apparent extract: the sugar solution of the same density at 20 °C; below zero for dry drinks.
[[nodiscard]] Plato apparent_extract(const physics::Liquid& drink);

/// Degree of attenuation in percent, (OE - E) / OE, for a real or apparent extract E.
/// @throws Error{domain} if the original extract is not above zero
[[nodiscard]] double attenuation(ExtractFraction original, Plato extract);

/// Energy from ethanol (29 kJ/g) and extract counted as carbohydrate (17 kJ/g), kJ per 100 mL.
/// @source [eu1169-2011] annex XIV
[[nodiscard]] double energy_kj_per_100_ml(const physics::Liquid& drink);
inline constexpr double kj_per_kcal = 4.184;

/// Percent by volume by the trade's straight line, 131.25 (OG - FG): common practice, no source.
/// Shown beside results for comparison, never used for them.
[[nodiscard]] constexpr double rule_of_thumb_strength(SpecificGravity<Ref20_20> original,
                                                      SpecificGravity<Ref20_20> present) {
  return 131.25 * (original - present).value;
}

}  // namespace areo::ferment
