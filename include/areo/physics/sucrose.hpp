// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Density of sucrose solutions.
#include <array>

#include "areo/core/range.hpp"
#include "areo/core/scales.hpp"
#include "areo/physics/increment.hpp"

namespace areo::physics {

inline constexpr Range sucrose_fraction_range{"sucrose mass fraction", "", 0, 0.85, "sps4"};
inline constexpr Range sucrose_temperature_range{"sucrose solution density", "°C", 0, 100, "sps4"};

/// Coefficients of the density formula, digits as printed.
/// rho = rho_w(t) + sum_i theta^i sum_k c[i][k-1] w^k, theta = (t - 20 °C) / 100 °C.
struct SucroseCoefficients {
  std::array<std::array<double, 6>, 5> c_kg_m3;
  /// Numerator powers 0..5 of t and the denominator's slope of the water term that belongs to it.
  std::array<double, 6> water_kg_m3;
  double water_denominator_per_c;
};
inline constexpr SucroseCoefficients sps4{
    {{{385.1761, 135.3705, 40.9299, -3.9643, 13.4853, -17.2890},
      {-46.2720, -7.1720, 1.1597, 5.1126, 17.5254, 0},
      {59.7712, 7.2491, 12.3630, -35.4791, 0, 0},
      {-47.2207, -21.6977, 27.6301, 0, 0, 0},
      {18.3184, 12.3081, 0, 0, 0, 0}}},
    {999.83952, 16.952577, -7.9905127e-3, -46.241757e-6, 105.84601e-9, -281.03006e-12},
    16.887236e-3};

namespace detail {
/// The sugar's share of the density, rho(w,t) - rho(0,t), without a range check: the mixture
/// continues it a little below zero (see mixture.hpp).
[[nodiscard]] constexpr Increment<6> sucrose_increment(double t_c) noexcept {
  const double theta = (t_c - 20) / 100;
  Increment<6> increment{};
  for (std::size_t i = sps4.c_kg_m3.size(); i-- > 0;)
    for (std::size_t k = 0; k < increment.c.size(); ++k)
      increment.c[k] = increment.c[k] * theta + sps4.c_kg_m3[i][k];
  return increment;
}
/// The source's own water, without a range check.
[[nodiscard]] constexpr double sucrose_water(double t_c) noexcept {
  double water = 0;
  for (std::size_t i = 6; i-- > 0;) water = water * t_c + sps4.water_kg_m3[i];
  return water / (1 + sps4.water_denominator_per_c * t_c);
}
}  // namespace detail

/// Density of a solution of sucrose in water, as its source states it, with the source's own water.
/// Readings and scales use physics::density() instead, which stands on the one water of areo.
/// @param w     sucrose mass fraction, 0 .. 0.85 (above solubility the formula is continued)
/// @param t     0 °C .. 100 °C
/// @return      kg/m³
/// @throws      Error{domain} outside either range or for NaN
/// @uncertainty none stated by the source; see density_model_uncertainty() for the agreement with
///              printed tables
/// @source      [sps4], [bubnik1995] p. 164; one of two transcriptions prints -3.9646 for the
///              coefficient of w⁴ (below 0.0002 kg/m³ everywhere)
/// @check       (0.125, 17.3 °C) -> 1049.2278 kg/m³; (0.455, 12.5 °C) -> 1208.3235 kg/m³
[[nodiscard]] constexpr Density sucrose_density(ExtractFraction w, Temperature t) {
  require(sucrose_fraction_range, w.value());
  require(sucrose_temperature_range, t.celsius());
  const double c = t.celsius();
  return kg_per_m3(detail::sucrose_water(c) + detail::sucrose_increment(c).at(w.value()));
}

}  // namespace areo::physics
