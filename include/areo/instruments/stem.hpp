// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// The stem of a hydrometer: how hard the surface of the liquid pulls at it, and how far it climbs.
#include "areo/core/scales.hpp"
#include "areo/core/units.hpp"
#include "areo/instruments/hydrometer.hpp"

namespace areo::instruments {

/// What is known of a property: within `half_width` of `value`, nothing else.
struct Known {
  double value, half_width;
  const char* provenance;  ///< where that comes from, in words
};

/// What decides how far a hydrometer is off in a liquid whose surface pulls harder, or less hard,
/// than that of the liquid its scale was made for.
struct Stem {
  Known diameter_mm, mass_g;
  Known made_for_mn_m;  ///< surface tension of the liquid that the scale was made for, at 20 °C
};

/// What is stated for the instrument (to ± 0.2 mm, ± 0.5 g, ± 2 mN/m), and for the rest what is
/// usual: a stem of (5 ± 1) mm on a body of (25 ± 8) g, or for divisions finer than 0.001 in
/// specific gravity of a mass that makes a division 1.2 mm high, within 40 %, 47 g for 0.0005; a
/// scale made to be right in clean water, within ± 6.2 mN/m, which is ± 0.0004 on the usual stem.
/// All rectangular, engineering judgement.
[[nodiscard]] Stem stem_of(const Hydrometer& h);

/// Density of a liquid over that of the mark at its surface: the surface pulls the float down with
/// pi D sigma, and the scale allows only for the pull of the liquid that it was made for. More than
/// one if the liquid pulls harder: the float sinks deeper and shows too little.
/// @param diameter of the stem where the surface is, > 0
/// @param mass     of the hydrometer, > 0
/// @return (m + pi D sigma / g) / (m + pi D sigma_made_for / g)
/// @source Langberg's form of the force balance, as in the guides to hydrostatic weighing
///         [nist-sp250-78]
/// @check  6 mm, 100 g, 20 mN/m more than it was made for: 0.000384 more
[[nodiscard]] double surface_factor(Length diameter, Mass mass, const SurfaceTension& liquid,
                                    const SurfaceTension& made_for);

/// Surface tension with which a liquid pulls at a stem, as areo takes it: up to 40 °C that at
/// 20 °C. So do the published tables of hydrometer corrections, which leave out that warm water
/// pulls less, 0.00001 in gravity a degree on the usual stem. Above 40 °C what it pulls less than
/// at 40 °C is taken off, without a step.
[[nodiscard]] SurfaceTension surface_of(EthanolFraction ethanol, ModelTemperature t);
/// What is not known of it, rectangular, in mN/m: physics::surface_half_width_mn_m, and what
/// surface_of() leaves out of the temperature; added in squares.
/// @check 20 °C -> 5; from 40 °C on -> 5.9
[[nodiscard]] double surface_half_width_mn_m(Temperature t);

/// What an error-free instrument shows in a liquid, its stem, what it was made for and the surface
/// of the liquid being as they usually are (stem_of(), surface_of()); what a reading
/// is taken back from. ideal_indication() leaves the surface out.
/// @check 3.97 % ethanol by mass at 1.0111 on the usual stem with divisions of 0.002 -> 1.0119
[[nodiscard]] double usual_indication(const Hydrometer& h, Density rho_at_t, ModelTemperature t,
                                      EthanolFraction ethanol = EthanolFraction{0});

/// Height that a division takes on the stem, in the middle of the scale.
[[nodiscard]] Length division_height(const Hydrometer& h, Length diameter, Mass mass);
/// The mass of a hydrometer whose divisions are so high; inverse of division_height().
[[nodiscard]] Mass mass_from_division_height(const Hydrometer& h, Length diameter, Length height);

/// How far a liquid that wets the glass climbs a stem above its level surface: sqrt(2) L /
/// sqrt(1 + 2 L / D), L = sqrt(sigma / (rho g)).
/// @uncertainty within 3.5 % of the Young-Laplace equation for stems of 3 mm to 6 mm and 45 mN/m to
///              73 mN/m (tests)
/// @check  5 mm in water: 2.67 mm, by the equation 2.65 mm
[[nodiscard]] Length meniscus_height(Length diameter, const SurfaceTension& surface, Density rho);

/// The same in divisions of the scale, in clean water: what is assumed of a cloudy liquid unless
/// Hydrometer::meniscus_height is stated.
/// @check the usual stem with divisions of 0.002: 1.04
[[nodiscard]] double usual_meniscus_divisions(const Hydrometer& h);

}  // namespace areo::instruments
