// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Density of pure water.
#include "areo/core/range.hpp"
#include "areo/core/units.hpp"

namespace areo::physics {

inline constexpr Range water_range{"water density",
                                   "°C",
                                   0,
                                   40,
                                   "tanaka2001",
                                   "let the liquid come nearer to room temperature and read again"};

/// [tanaka2001] table 1; digits as printed. rho = a5 (1 - (t + a1)² (t + a2) / (a3 (t + a4))).
struct WaterCoefficients {
  double a1_c, a2_c, a3_c2, a4_c, a5_kg_m3;
};
inline constexpr WaterCoefficients tanaka2001{-3.983035, 301.797, 522528.9, 69.34881, 999.974950};

namespace detail {
/// The same without a range check.
[[nodiscard]] constexpr double tanaka_water(double t_c) noexcept {
  const auto& [a1, a2, a3, a4, a5] = tanaka2001;
  const double d = t_c + a1;
  return a5 * (1 - d * d * (t_c + a2) / (a3 * (t_c + a4)));
}
}  // namespace detail

/// Density of pure, air-free water at 101.325 kPa, as its source states it. The water of readings
/// and scales is physics::density() of nothing dissolved: this one, and above 40 °C a continuation.
/// @param t     water temperature (ITS-90), 0 °C .. 40 °C
/// @return      kg/m³
/// @throws      Error{domain} outside the range or for NaN; areo never extrapolates silently
/// @uncertainty about 0.001 kg/m³ (k = 1; a statement from memory; within 0.0012 of IAPWS-95).
///              Air-saturated water is 0.002 to 0.005 kg/m³ lighter.
/// @source      [tanaka2001] eq. 1 and table 1
/// @check       20 °C -> 998.2067 kg/m³; 17.3 °C -> 998.72512 kg/m³
[[nodiscard]] constexpr Density water_density(Temperature t) {
  require(water_range, t.celsius());
  return kg_per_m3(detail::tanaka_water(t.celsius()));
}

}  // namespace areo::physics
