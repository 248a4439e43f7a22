// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/physics/carbon_dioxide.hpp"

#include <cmath>

#include "areo/core/error.hpp"
#include "areo/physics/mixture.hpp"

namespace areo::physics {
namespace {

// [carroll1991], digits as printed; ln(H/MPa) with T in K.
constexpr double h0 = -6.8346, h1 = 1.2817e4, h2 = -3.7668e6, h3 = 2.997e8;
// [eu2676-90], digits as printed.
constexpr double without_alcohol = 0.86, per_percent_vol = 0.01, per_sugar_g_l = 0.00144;

constexpr double water_molar_mass = 18.01528;  // g/mol
constexpr double gas_constant = 0.08314463;    // L bar/(mol K), CODATA 2018
constexpr double pa_per_bar = 1e5;

void require(const ClosedBottle& bottle) {
  areo::require(solubility_temperature_range, bottle.t);
  if (!(bottle.headspace >= 0 && bottle.headspace <= most_headspace))
    throw Error{Errc::domain, "the headspace is from nothing to half of the bottle"};
  if (!(bottle.solubility_g_l_bar > 0) || !std::isfinite(bottle.solubility_g_l_bar) ||
      !(bottle.beyond_ideal_per_bar >= 0) || !std::isfinite(bottle.beyond_ideal_per_bar))
    throw Error{Errc::domain,
                "a solubility is above zero, and what is beyond the ideal laws not below"};
}

// Pa, without a range check.
double henry_at(double k) { return 1e6 * std::exp(h0 + h1 / k + h2 / (k * k) + h3 / (k * k * k)); }

// Grams above a litre of drink, at 1 bar.
double headspace_g_l_bar(const ClosedBottle& bottle) {
  return bottle.headspace / (1 - bottle.headspace) * carbon_dioxide_molar_mass /
         (gas_constant * bottle.t.point().in<KelvinUnit>());
}

}  // namespace

Pressure henry_constant(Temperature t) {
  const double k = t.in<KelvinUnit>();
  areo::require(henry_range, k);
  return pascals(henry_at(k));
}

double solubility_in_water(ModelTemperature t) {
  areo::require(solubility_temperature_range, t);
  const double x = pa_per_bar / henry_at(t.point().in<KelvinUnit>());
  return x / (1 - x) * density(Liquid{}, t).value() / water_molar_mass * carbon_dioxide_molar_mass;
}

double solubility_ratio(StrengthByVolume strength, MassConcentration sugar) {
  areo::require(solubility_strength_range, strength.value());
  areo::require(solubility_sugar_range, sugar.value());
  return (1 - per_percent_vol * strength.value() / without_alcohol) *
         (1 - per_sugar_g_l * sugar.value());
}

double carbon_dioxide_held(const ClosedBottle& bottle, Pressure partial) {
  require(bottle);
  const double p = partial.value() / pa_per_bar;
  if (!(p >= 0) || !std::isfinite(p)) throw Error{Errc::domain, "a pressure is not below zero"};
  return bottle.solubility_g_l_bar * p / (1 + bottle.beyond_ideal_per_bar * p) +
         headspace_g_l_bar(bottle) * p;
}

// With g of the headspace: g c p² + (k + g - m c) p - m = 0, of which one root is above zero.
Pressure carbon_dioxide_pressure(const ClosedBottle& bottle, double total_g_l) {
  require(bottle);
  if (!std::isfinite(total_g_l)) throw Error{Errc::domain, "carbon dioxide has an amount"};
  const double m = total_g_l;
  const double k = bottle.solubility_g_l_bar;
  const double g = headspace_g_l_bar(bottle);
  const double c = bottle.beyond_ideal_per_bar;
  if (m <= 0) return pascals(pa_per_bar * m / (k + g));
  const double b = k + g - m * c;
  const double root = b + std::sqrt(b * b + 4 * g * c * m);
  if (!(root > 0))
    throw Error{Errc::domain, "no pressure keeps so much carbon dioxide in so little room"};
  return pascals(pa_per_bar * 2 * m / root);
}

Pressure gauge_pressure(const ClosedBottle& bottle, Pressure partial, Pressure atmosphere,
                        ModelTemperature closed_at) {
  require(bottle);
  areo::require(solubility_temperature_range, closed_at);
  if (!(atmosphere.value() > 0) || !std::isfinite(partial.value()))
    throw Error{Errc::domain, "an atmosphere has a pressure above zero"};
  const double warmed = bottle.t.point().in<KelvinUnit>() / closed_at.point().in<KelvinUnit>();
  return partial + pascals(atmosphere.value() * (warmed - 1));
}

}  // namespace areo::physics
