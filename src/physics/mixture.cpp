// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/physics/mixture.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

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

// Water and what may be dissolved in it, at one temperature.
struct Binaries {
  double water;
  detail::Increment<6> sugar;
  detail::Increment<11> ethanol;
};

// After a step this small the next one of Newton's method would be below the last bit.
constexpr double last_step = 1e-8;
constexpr int max_steps = 30;

// Tabarié speaks of the two binaries that hold as much sugar and as much ethanol per litre as the
// drink: w rho_s(w) = w_s rho and p rho_a(p) = w_e rho, with rho = rho_s + rho_a - rho_water.
// Newton's method for w and p, which are near w_s and w_e: three steps.
double tabarie(double w_s, double w_e, const Binaries& in) {
  double w = w_s;
  double p = w_e;
  for (int step = 0; step < max_steps; ++step) {
    const auto [sugar, sugar_slope] = in.sugar.with_slope(w);
    const auto [ethanol, ethanol_slope] = in.ethanol.with_slope(p);
    const double rho_s = in.water + sugar;
    const double rho_a = in.water + ethanol;
    const double rho = rho_s + ethanol;
    const double f = w * rho_s - w_s * rho;
    const double g = p * rho_a - w_e * rho;
    const double f_w = rho_s + (w - w_s) * sugar_slope, f_p = -w_s * ethanol_slope;
    const double g_p = rho_a + (p - w_e) * ethanol_slope, g_w = -w_e * sugar_slope;
    const double determinant = f_w * g_p - f_p * g_w;
    const double dw = (f * g_p - g * f_p) / determinant;
    const double dp = (g * f_w - f * g_w) / determinant;
    w -= dw;
    p -= dp;
    if (std::abs(dw) < last_step && std::abs(dp) < last_step)
      return in.water + in.sugar.at(w) + in.ethanol.at(p);
  }
  throw Error{Errc::no_convergence, "the density of the drink did not converge"};
}

// The fraction at which a binary holds so many kg/m³ of what is dissolved: p rho_a(p) = c.
std::optional<double> fraction_of_concentration(double c, double water,
                                                const detail::Increment<11>& ethanol) {
  double p = c / water;
  for (int step = 0; step < max_steps; ++step) {
    const auto [increment, slope] = ethanol.with_slope(p);
    const double dp = (p * (water + increment) - c) / (water + increment + p * slope);
    p -= dp;
    if (std::abs(dp) < last_step) return p;
  }
  return std::nullopt;
}

// The sugar that adds so many kg/m³, from the root of the first two terms on.
std::optional<double> fraction_of_increment(double kg_m3, const detail::Increment<6>& sugar) {
  const double c1 = sugar.c[0];
  double w = 2 * kg_m3 / (c1 + std::sqrt(c1 * c1 + 4 * sugar.c[1] * kg_m3));
  for (int step = 0; step < max_steps; ++step) {
    const auto [increment, slope] = sugar.with_slope(w);
    const double dw = (increment - kg_m3) / slope;
    w -= dw;
    if (std::abs(dw) < last_step) return w;
  }
  return std::nullopt;
}

// Tabarié's relation along a line of drinks, its three unknowns by Newton's method: the fractions w
// and p of the binaries, and the ethanol a. What is read of the density changes little with the
// ethanol; its slope is taken from the last two steps.
std::optional<double> solve_on_line(const CompositionLine& line, const DensityRead& rho_read,
                                    const Binaries& in) {
  constexpr double usual_drink = 0.03;
  constexpr double last_step_on_line = 1e-10;  // the slope of what is read is not exact
  const double x_a = line.extract_per_ethanol;
  double a = usual_drink;
  double p = a;
  double w = line.without_ethanol.value() + x_a * a;
  double rho = rho_read(EthanolFraction{a}).value();
  double rho_a = 0;  // d rho / d a
  for (int step = 0; step < max_steps; ++step) {
    const auto [sugar, sugar_slope] = in.sugar.with_slope(w);
    const auto [ethanol, ethanol_slope] = in.ethanol.with_slope(p);
    const double of_sugar = in.water + sugar, of_ethanol = in.water + ethanol;
    const double x = line.without_ethanol.value() + x_a * a;
    const double e = of_sugar + ethanol - rho;
    const double f = p * of_ethanol - a * rho;
    const double g = w * of_sugar - x * rho;
    const double f_p = of_ethanol + p * ethanol_slope, f_a = rho + a * rho_a;
    const double g_w = of_sugar + w * sugar_slope, g_a = x_a * rho + x * rho_a;
    const double da = (sugar_slope * g / g_w + ethanol_slope * f / f_p - e) /
                      (sugar_slope * g_a / g_w + ethanol_slope * f_a / f_p - rho_a);
    const double dp = (f_a * da - f) / f_p;
    const double dw = (g_a * da - g) / g_w;
    a += da;
    p += dp;
    w += dw;
    if (!std::isfinite(a)) return std::nullopt;
    if (std::abs(da) < last_step_on_line && std::abs(dp) < last_step && std::abs(dw) < last_step)
      return a;
    const double anew = rho_read(EthanolFraction{a}).value();
    if (std::abs(da) > last_step) rho_a = (anew - rho) / da;
    rho = anew;
  }
  return std::nullopt;
}

// With the density known, Tabarié's relation falls apart: the ethanol gives its binary, what is
// left of the density the other one.
std::optional<double> extract_of(double rho, double w_e, double t_c) {
  const double water = water_at(t_c);
  const detail::Increment<6> sugar = detail::sucrose_increment(t_c);
  if (w_e == 0) return fraction_of_increment(rho - water, sugar);
  const detail::Increment<11> ethanol = detail::ethanol_increment(t_c);
  const auto p = fraction_of_concentration(w_e * rho, water, ethanol);
  if (!p) return std::nullopt;
  const double rho_s = rho - ethanol.at(*p);
  const auto w = fraction_of_increment(rho_s - water, sugar);
  if (!w) return std::nullopt;
  return *w * rho_s / rho;
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
  if (w_e == 0) return kg_per_m3(water + detail::sucrose_increment(t_c).at(w_s));
  if (w_s == 0) return kg_per_m3(water + detail::ethanol_increment(t_c).at(w_e));
  return kg_per_m3(
      tabarie(w_s, w_e, {water, detail::sucrose_increment(t_c), detail::ethanol_increment(t_c)}));
}

double sucrose_formula_uncertainty(ExtractFraction fraction) {
  require(mixture_extract_range, fraction.value());
  constexpr double to_60 = 0.0006, at_85 = 0.0013;  // rms against [nbsc440], relative
  constexpr double floor_kg_m3 = 0.015;             // rms below 10 %
  constexpr double least_fraction = 0.01;           // nearer to water the floor shrinks with it
  const double w = std::abs(fraction.value());
  const double slope = std::max(0.0, (w - 0.60) / 0.25) * (at_85 - to_60);
  const double increment = detail::sucrose_increment(20).at(std::max(w, least_fraction));
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
                       detail::sucrose_increment(20).at(std::abs(liquid.extract.value()));
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
  const double w_e = ethanol.value();
  require(mixture_ethanol_range, w_e);
  if (w_e != 0) require_drink_temperature(t);
  // Extract and ethanol cannot be more than the whole.
  const double most = std::min(mixture_extract_range.hi, 1 - w_e);
  const auto w = extract_of(rho.value(), w_e, t.celsius());
  if (w && *w >= mixture_extract_range.lo && *w <= most) return ExtractFraction{*w};
  // At an end, or nowhere: this also says what is wrong.
  const auto excess = [&](double at) {
    return density({ExtractFraction{at}, ethanol}, t).value() - rho.value();
  };
  return ExtractFraction{
      numeric::find_root(excess, mixture_extract_range.lo, most, 1e-13,
                         {"extract mass fraction", "density", rho.value(), "kg/m³",
                          "check the reading, its scale and its temperature"})};
}

std::optional<EthanolFraction> ethanol_on_line(const CompositionLine& line,
                                               const DensityRead& rho_read, ModelTemperature t) {
  require_drink_temperature(t);
  const double t_c = t.celsius();
  const auto a = solve_on_line(
      line, rho_read,
      {water_at(t_c), detail::sucrose_increment(t_c), detail::ethanol_increment(t_c)});
  if (!a) return std::nullopt;
  return EthanolFraction{*a};
}

}  // namespace areo::physics
