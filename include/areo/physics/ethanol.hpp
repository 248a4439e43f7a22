// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Density of ethanol-water mixtures, and alcoholic strength by volume and by mass.
#include "areo/core/range.hpp"
#include "areo/core/scales.hpp"
#include "areo/core/units.hpp"
#include "areo/physics/increment.hpp"

namespace areo::physics {

inline constexpr Range ethanol_fraction_range{"ethanol mass fraction", "", 0, 1, "oimlr22"};
inline constexpr Range ethanol_temperature_range{"ethanol-water density", "°C", -20, 40, "oimlr22"};

/// Density of a mixture of ethanol and water, as its source states it, with the source's own water.
/// @param p     ethanol mass fraction, 0 .. 1
/// @param t     -20 °C .. 40 °C; below 0 °C only where the mixture is liquid (not checked)
/// @return      kg/m³
/// @throws      Error{domain} outside either range or for NaN
/// @uncertainty none stated; 0.03 kg/m³ rms against measured data of 1913 [osborne1913]
/// @source      [oimlr22] general formula, all 54 coefficients (tables/oiml-r22-coefficients.csv);
///              t on IPTS-68, 0.005 °C from ITS-90 at 20 °C, neglected
/// @check       (0, 20 °C) -> 998.20123 kg/m³; (0.08, 25 °C) -> 983.3962 kg/m³
[[nodiscard]] Density ethanol_density(EthanolFraction p, Temperature t);

namespace detail {
/// rho(p,t) - rho(0,t) without range checks, kg/m³.
[[nodiscard]] Increment<11> ethanol_increment(double t_c) noexcept;
}  // namespace detail

/// Alcoholic strength by volume of an ethanol-water mixture, q = p rho(p,t) / rho(1,t).
/// @param reference  t, at which both volumes are measured: 20 °C almost everywhere, 60 °F in older
///                   tables of trade
/// @check 0.0398181 -> 5 % vol
[[nodiscard]] StrengthByVolume strength_by_volume(EthanolFraction p,
                                                  Temperature reference = celsius_point(20));
/// Inverse of strength_by_volume(), to 1e-13 in p.
/// @param q     0 % vol .. 100 % vol
/// @throws      Error{domain} outside
[[nodiscard]] EthanolFraction ethanol_fraction(StrengthByVolume q,
                                               Temperature reference = celsius_point(20));
/// Density of pure ethanol at 20 °C, 789.239 kg/m³ [oimlr22]: 1 % vol is 7.89239 g/L.
[[nodiscard]] Density pure_ethanol_density();

}  // namespace areo::physics
