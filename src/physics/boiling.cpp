// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/physics/boiling.hpp"

#include <cmath>

namespace areo::physics {
namespace {

// [if97] region 4, table 34; digits as printed.
struct SaturationCoefficients {
  double n1, n2, n3, n4, n5, n6, n7, n8, n9, n10;
};
constexpr SaturationCoefficients region4{
    1167.0521452767, -724213.16703206, -17.073846940092, 12020.824702470,   -3232555.0322333,
    14.915108613530, -4823.2657361591, 405113.40542057,  -0.23855557567849, 650.17534844798};

// [isa]: sea-level pressure and temperature, lapse rate, gravity, molar mass, gas constant.
constexpr double p0_pa = 101325, t0_k = 288.15, lapse_k_per_m = 0.0065;
constexpr double g0 = 9.80665, molar_mass_kg = 0.0289644, gas_constant = 8.31432;

}  // namespace

Temperature boiling_point(Pressure pressure) {
  require(boiling_pressure_range, pressure.value() / 1000);
  const auto& [n1, n2, n3, n4, n5, n6, n7, n8, n9, n10] = region4;
  const double beta = std::pow(pressure.value() / 1e6, 0.25);
  const double e = beta * beta + n3 * beta + n6;
  const double f = n1 * beta * beta + n4 * beta + n7;
  const double g = n2 * beta * beta + n5 * beta + n8;
  const double d = 2 * g / (-f - std::sqrt(f * f - 4 * e * g));
  return kelvin_point((n10 + d - std::sqrt((n10 + d) * (n10 + d) - 4 * (n9 + n10 * d))) / 2);
}

Pressure standard_pressure(Length altitude) {
  require(altitude_range, altitude.value());
  return pascals(p0_pa * std::pow(1 - lapse_k_per_m * altitude.value() / t0_k,
                                  g0 * molar_mass_kg / (lapse_k_per_m * gas_constant)));
}

}  // namespace areo::physics
