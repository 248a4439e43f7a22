// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/ferment/drink.hpp"

#include "areo/core/error.hpp"
#include "areo/physics/ethanol.hpp"
#include "areo/physics/mixture.hpp"

namespace areo::ferment {
namespace {

Density density_20(const physics::Liquid& drink) {
  return physics::density(drink, celsius_point(20));
}

constexpr double ethanol_kj_per_g = 29;       // [eu1169-2011]
constexpr double carbohydrate_kj_per_g = 17;  // [eu1169-2011]

}  // namespace

StrengthByVolume strength_by_volume(const physics::Liquid& drink) {
  return StrengthByVolume{100 * drink.ethanol.value() * density_20(drink).value() /
                          physics::pure_ethanol_density().value()};
}

physics::Liquid drink_of_strength(StrengthByVolume strength, Density rho, Temperature t) {
  const double ethanol_kg_m3 = strength.value() / 100 * physics::pure_ethanol_density().value();
  const auto with = [&](Density at_20) {
    const EthanolFraction a{ethanol_kg_m3 / at_20.value()};
    return physics::Liquid{physics::extract_from_density(rho, t, a), a};
  };
  // Between t and 20 °C a drink's density changes by a few parts in a thousand, and each step makes
  // the error as much smaller.
  physics::Liquid drink = with(rho);
  for (int i = 0; i < 5; ++i) drink = with(density_20(drink));
  return drink;
}

StrengthByMass strength_by_mass(const physics::Liquid& drink) {
  return StrengthByMass{100 * drink.ethanol.value()};
}

Plato real_extract(const physics::Liquid& drink) { return plato(drink.extract); }

Plato apparent_extract(const physics::Liquid& drink) {
  return plato(physics::extract_from_density(density_20(drink), celsius_point(20)));
}

double attenuation(ExtractFraction original, Plato extract) {
  if (!(original.value() > 0))
    throw Error{Errc::domain, "attenuation needs an original extract above zero"};
  return 100 * (original.value() - extract_fraction(extract).value()) / original.value();
}

double energy_kj_per_100_ml(const physics::Liquid& drink) {
  const double grams_per_100_ml = density_20(drink).value() / 10;
  return grams_per_100_ml *
         (ethanol_kj_per_g * drink.ethanol.value() + carbohydrate_kj_per_g * drink.extract.value());
}

}  // namespace areo::ferment
