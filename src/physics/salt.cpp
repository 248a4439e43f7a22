// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/physics/salt.hpp"

#include <cmath>

#include "areo/physics/mixture.hpp"

namespace areo::physics {
namespace {

// [laliberte2009], digits as printed: apparent density of the dissolved salt
// (c0 w + c1) exp(1e-6 (t + c4)²) / (w + c2 + c3 t), kg/m³ with t in °C.
struct ApparentDensity {
  double c0, c1, c2, c3, c4;
};
constexpr ApparentDensity sodium_chloride{-0.00324112223655149, 0.0636354335906616,
                                          1.01371399467365, 0.0145951015210159, 3317.34854426537};

// The source's own water, kg/m³.
double source_water(double t) {
  return (999.83952 +
          t * (16.945176 + t * (-7.9870401e-3 +
                                t * (-46.170461e-6 + t * (105.56302e-9 - t * 280.54253e-12))))) /
         (1 + 16.879850e-3 * t);
}

}  // namespace

Density salt_density(SaltFraction fraction, ModelTemperature temperature) {
  require(salt_fraction_range, fraction.value());
  require(salt_temperature_range, temperature);
  const double w = fraction.value();
  const Density water_of_drinks = density(Liquid{}, temperature);
  if (w == 0) return water_of_drinks;
  const double t = temperature.celsius();
  const auto& [c0, c1, c2, c3, c4] = sodium_chloride;
  const double apparent = (c0 * w + c1) * std::exp(1e-6 * (t + c4) * (t + c4)) / (w + c2 + c3 * t);
  const double water = source_water(t);
  const double source = 1 / ((1 - w) / water + w / apparent);
  return water_of_drinks + kg_per_m3(source - water);
}

double salt_density_uncertainty(SaltFraction w) {
  require(salt_fraction_range, w.value());
  return w.value() <= 0.10 ? 0.1 : 0.3;
}

}  // namespace areo::physics
