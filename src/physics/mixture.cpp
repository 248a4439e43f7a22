// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/physics/mixture.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "areo/numeric/root.hpp"
#include "areo/physics/ethanol.hpp"
#include "areo/physics/sucrose.hpp"
#include "areo/physics/water.hpp"

namespace areo::physics {
namespace {

// Continued above 40 °C as mixture.hpp says; at 40 °C both are the same number.
double water_at(double t_c) {
  constexpr double join_c = water_range.hi;
  constexpr double step = detail::tanaka_water(join_c) - detail::sucrose_water(join_c);
  return t_c <= join_c ? detail::tanaka_water(t_c) : detail::sucrose_water(t_c) + step;
}

double sugar_binary(double w, double water, double t_c) {
  return water + detail::sucrose_increment(w, t_c);
}
double ethanol_binary(double p, double water, double t_c) {
  return water + detail::ethanol_increment(p, t_c);
}

// Tabarié speaks of the two binaries that hold as much sugar and as much ethanol per litre as the
// drink: w rho_s(w) = w_s rho and p rho_a(p) = w_e rho. Iterating these two equations contracts by
// a factor of about 0.03 a step (each mass fraction moves the other's density only a little), so
// 10 steps reach the last bit.
double tabarie(double w_s, double w_e, double water, double t_c) {
  constexpr int max_steps = 60;
  double w = w_s;
  double p = w_e;
  double rho = 0;
  for (int step = 0; step < max_steps; ++step) {
    const double rho_s = sugar_binary(w, water, t_c);
    const double rho_a = ethanol_binary(p, water, t_c);
    const double previous = rho;
    rho = rho_a + rho_s - water;
    if (std::abs(rho - previous) <= 1e-13 * rho) return rho;
    w = w_s * rho / rho_s;
    p = w_e * rho / rho_a;
  }
  throw Error{Errc::no_convergence, "the density of the drink did not converge"};
}

void require_composition(const Liquid& liquid) {
  require(mixture_extract_range, liquid.extract.value());
  require(mixture_ethanol_range, liquid.ethanol.value());
  if (liquid.extract.value() + liquid.ethanol.value() > 1)
    throw Error{Errc::domain, "extract and ethanol are more than the whole liquid"};
}

}  // namespace

void require_drink_temperature(ModelTemperature t) {
  const Range& range = drink_temperature_range;
  // What a person can do about it comes first; the cold end is said as everywhere.
  if (t.beyond_c() == 0 && t.celsius() > range.hi)
    throw Error{Errc::domain,
                fmt::format("with alcohol the density is known to {} {} [{}]; got {} {}", range.hi,
                            range.unit, range.source, celsius_number_text(t.celsius()), range.unit),
                std::string{range.hint}};
  require(range, t);
}

Density density(const Liquid& liquid, ModelTemperature t) {
  require_composition(liquid);
  if (liquid.ethanol.value() == 0)
    require(mixture_temperature_range, t);
  else
    require_drink_temperature(t);
  const double w_s = liquid.extract.value();
  const double w_e = liquid.ethanol.value();
  const double t_c = t.celsius();
  const double water = water_at(t_c);
  if (w_e == 0) return kg_per_m3(sugar_binary(w_s, water, t_c));
  if (w_s == 0) return kg_per_m3(ethanol_binary(w_e, water, t_c));
  return kg_per_m3(tabarie(w_s, w_e, water, t_c));
}

double sucrose_formula_uncertainty(ExtractFraction fraction) {
  require(mixture_extract_range, fraction.value());
  constexpr double to_60 = 0.0006, at_85 = 0.0013;  // rms against [nbsc440], relative
  constexpr double floor_kg_m3 = 0.015;             // rms below 10 %
  constexpr double least_fraction = 0.01;           // nearer to water the floor shrinks with it
  const double w = std::abs(fraction.value());
  const double slope = std::max(0.0, (w - 0.60) / 0.25) * (at_85 - to_60);
  const double increment = detail::sucrose_increment(std::max(w, least_fraction), 20);
  return std::hypot(to_60 + slope, floor_kg_m3 / increment);
}

double detail::tabarie_uncertainty(double w_s, double w_e) noexcept {
  constexpr double drifts_from = 0.16, threefold_at = 0.18;
  const double drift = 1 + 2 * std::max(0.0, (w_e - drifts_from) / (threefold_at - drifts_from));
  return 10 * w_s * w_e * drift;
}

double ethanol_model_uncertainty(const Liquid& liquid) {
  require_composition(liquid);
  const double w_e = std::abs(liquid.ethanol.value());
  const double binary = 0.03 * std::min(1.0, w_e / 0.01);
  return std::hypot(binary, detail::tabarie_uncertainty(std::abs(liquid.extract.value()), w_e));
}

double density_model_uncertainty(const Liquid& liquid) {
  require_composition(liquid);
  const double sugar = sucrose_formula_uncertainty(liquid.extract) *
                       detail::sucrose_increment(std::abs(liquid.extract.value()), 20);
  return std::hypot(sugar, ethanol_model_uncertainty(liquid));
}

Error too_strong() {
  return Error{Errc::domain,
               fmt::format("stronger than this method covers: it was compared with measurements "
                           "to {:g} % alcohol by mass [hackbarth2009]",
                           100 * strongest_covered.value()),
               "check the readings and their temperatures; if they are right, a laboratory has to "
               "distil it"};
}

ExtractFraction extract_from_density(Density rho, ModelTemperature t, EthanolFraction ethanol) {
  require(mixture_temperature_range, t);
  const auto excess = [&](double w) {
    return density({ExtractFraction{w}, ethanol}, t).value() - rho.value();
  };
  // Extract and ethanol cannot be more than the whole.
  const double most = std::min(mixture_extract_range.hi, 1 - ethanol.value());
  return ExtractFraction{
      numeric::find_root(excess, mixture_extract_range.lo, most, 1e-13,
                         {"extract mass fraction", "density", rho.value(), "kg/m³",
                          "check the reading, its scale and its temperature"})};
}

}  // namespace areo::physics
