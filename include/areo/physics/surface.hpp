// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Surface tension of water and drinks: what pulls a stem down.
#include "areo/core/model_temperature.hpp"
#include "areo/core/scales.hpp"
#include "areo/core/units.hpp"

namespace areo::physics {

/// [iapws-r1-76]: sigma = B tau^mu (1 + b tau), tau = 1 - T / T_c; digits as printed.
struct WaterSurfaceCoefficients {
  double b_n_m, mu, b, critical_k;
};
inline constexpr WaterSurfaceCoefficients iapws_r1_76{0.2358, 1.256, -0.625, 647.096};

/// Surface tension of pure water against air.
/// @param t     0 °C .. 100 °C are far within its range
/// @return      N/m
/// @throws      Error{domain} for a temperature that is not finite
/// @uncertainty 0.5 % (from memory)
/// @source      [iapws-r1-76], the release of 2014
/// @check       300 K -> 71.6859625 mN/m; 20 °C -> 72.736 mN/m
[[nodiscard]] SurfaceTension water_surface_tension(ModelTemperature t);

/// Half-width of what is known of the surface tension of a liquid in hand beside the formula below,
/// rectangular, in mN/m: what foams or is oily lowers it, sugar raises it by less than 1 mN/m at
/// 10 % by mass. A judgement; beer can lie lower still.
inline constexpr double surface_half_width_mn_m = 5;

/// Surface tension of a drink: that of water at its temperature, lowered by its ethanol as
/// Szyszkowski's equation has it, sigma = sigma_w (1 - a ln(1 + p / b)), with a and b fitted to
/// mixtures of ethanol and water at 20 °C.
/// @param ethanol mass fraction, to 0.25; below zero, where readings of none scatter to, as none
/// @throws      Error{domain} as water_surface_tension()
/// @uncertainty within 0.2 mN/m of the table to 20 % by mass, 0.9 mN/m at 25 %, at 20 °C and 25 °C;
///              of a real drink surface_half_width_mn_m
/// @source      [vazquez1995] table 2, from memory
/// @check       5 % by mass at 20 °C -> 56.35 mN/m (table: 56.41)
[[nodiscard]] SurfaceTension surface_tension(EthanolFraction ethanol, ModelTemperature t);

}  // namespace areo::physics
