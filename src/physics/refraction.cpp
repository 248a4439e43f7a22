// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/physics/refraction.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>

#include "areo/core/error.hpp"
#include "areo/numeric/root.hpp"
#include "areo/physics/mixture.hpp"
#include "areo/physics/water.hpp"
#include "numeric/secant.hpp"

namespace areo::physics {
namespace {

constexpr double reference_c = 20;

// Index of water in powers of t - 20 °C, fitted to values of [iapws-r9-97] from 0 °C to 60 °C.
constexpr std::array water_index{1.33298805, -8.98607548e-5, -1.73523691e-6, 1.26559536e-8,
                                 -8.99696107e-11};
// Rise of the index at 20 °C in powers 1 .. 5 of the sucrose fraction, fitted to [icumsa1974].
constexpr std::array sucrose_rise_20{0.1427118, 0.0550727, 0.0109783, 0.0147529, -0.0102486};
constexpr double sucrose_water_20 = 1.3329889;  // the water of that fit
// Change of the sugar's refraction per °C, fitted to [itct1936].
constexpr double extract_refraction_per_c = 6.6e-5;
// Specific refraction of ethanol in water in m³/kg, fitted to [crc102] up to 16 % by mass. It is
// 1 % below that of pure ethanol, so the formula must not be used far above.
constexpr double ethanol_refraction = 2.7766e-4;

constexpr double water_at(double t_c) noexcept {
  const double x = t_c - reference_c;
  double n = 0;
  for (std::size_t k = water_index.size(); k-- > 0;) n = n * x + water_index[k];
  return n;
}
constexpr double water_20 = water_at(reference_c);

// Smooth and rising from -0.05 to 0.85, zero at zero.
constexpr double sucrose_rise(double w) noexcept {
  double rise = 0;
  for (std::size_t k = sucrose_rise_20.size(); k-- > 0;) rise = (rise + sucrose_rise_20[k]) * w;
  return rise;
}

constexpr double lorentz_lorenz(double n) noexcept { return (n * n - 1) / (n * n + 2); }

// The index whose Lorentz-Lorenz value is that of n plus `change`. Solved for the difference, so
// that no change gives n to the last bit.
double index_after(double n, double change) {
  const double before = lorentz_lorenz(n);
  const double square_change = 3 * change / ((1 - before) * (1 - before - change));
  return n + square_change / (n + std::sqrt(n * n + square_change));
}

// What the extract adds to L / rho at 20 °C, in m³/kg. Taken from the index of its solution as a
// whole, not as a specific refraction times w: there is no division by w, so it goes through zero.
double extract_share_20(double w, double relative_rise) {
  const Temperature reference = celsius_point(reference_c);
  const double rho = density({ExtractFraction{w}}, reference).value();
  const double water_rho = water_density(reference).value();
  return lorentz_lorenz(water_20 + relative_rise * sucrose_rise(w)) / rho -
         (1 - w) * lorentz_lorenz(water_20) / water_rho;
}

// @param typed  what has this index, for the message; called only if that is needed
template <class Typed>
ExtractFraction solve_extract(RefractiveIndex n, ModelTemperature t, const ExtractOptics& optics,
                              EthanolFraction ethanol, const Typed& typed) {
  const auto excess = [&](double w) {
    return refractive_index({ExtractFraction{w}, ethanol}, t, optics).value() - n.value();
  };
  const auto& range = index_extract_range;
  // Water, and what sugar would have this index if it refracted in proportion.
  const double guess = excess(0) / -sucrose_rise_20[0];
  if (guess != 0 && guess >= range.lo && guess <= range.hi)
    if (const auto w = numeric::secant(excess, 0, guess, range.lo, range.hi))
      return ExtractFraction{*w};
  const bool too_low = !(excess(range.lo) <= 0);  // NaN lands here too
  if (too_low || excess(range.hi) < 0)
    throw Error{
        Errc::domain,
        fmt::format("{} at {} °C needs an extract mass fraction outside {} to {} [{}]", typed(),
                    celsius_number_text(t.celsius()), range.lo, range.hi, range.source),
        too_low ? "clean the prism, re-zero in water and read again"
                : "thin the sample with a weighed amount of water"};
  return ExtractFraction{numeric::find_root(excess, range.lo, range.hi, 1e-13,
                                            {"extract mass fraction", "refractive index", n.value(),
                                             "", "read the refractometer again"})};
}

void require_liquid(const Liquid& liquid, ModelTemperature t) {
  require(index_extract_range, liquid.extract.value());
  require(index_ethanol_range, liquid.ethanol.value());
  require(index_temperature_range, t);
}

}  // namespace

RefractiveIndex water_refractive_index(Temperature t) {
  require(water_index_range, t.celsius());
  return RefractiveIndex{water_at(t.celsius())};
}

RefractiveIndex sucrose_refractive_index_20(ExtractFraction w) {
  require(sucrose_index_range, w.value());
  return RefractiveIndex{sucrose_water_20 + sucrose_rise(w.value())};
}

RefractiveIndex refractive_index(const Liquid& liquid, ModelTemperature t,
                                 const ExtractOptics& optics) {
  require_liquid(liquid, t);
  require(relative_rise_range, optics.relative_rise);
  const double w_s = liquid.extract.value();
  const double w_e = liquid.ethanol.value();
  const double t_c = t.celsius();
  const double water = water_at(t_c);
  const double rho = density(liquid, t).value();
  const double water_change =
      lorentz_lorenz(water) * (rho / density(Liquid{}, t).value() * (1 - w_s - w_e) - 1);
  const double extract = extract_share_20(w_s, optics.relative_rise) *
                         (1 + extract_refraction_per_c * (t_c - reference_c));
  const double ethanol = w_e * ethanol_refraction;
  return RefractiveIndex{index_after(water, water_change + rho * (extract + ethanol))};
}

double relative_rise_from_index(RefractiveIndex n, ModelTemperature t, ExtractFraction extract) {
  const auto excess = [&](double rise) {
    return refractive_index({extract}, t, {rise, 0}).value() - n.value();
  };
  const auto& range = relative_rise_range;
  if (!(extract.value() > 0 && excess(range.lo) <= 0 && excess(range.hi) >= 0))
    throw Error{Errc::domain,
                fmt::format("refraction and density do not go together: no extract refracts less "
                            "than {} or more than {} times as much as sugar [{}]",
                            range.lo, range.hi, range.source),
                "read both from one unfermented, settled sample of 5 % extract or more"};
  return numeric::find_root(excess, range.lo, range.hi, 1e-12,
                            {"refraction of the extract", "refractive index", n.value(), "",
                             "read both from one unfermented, settled sample"});
}

double refractive_index_model_uncertainty(const Liquid& liquid, ModelTemperature t) {
  require_liquid(liquid, t);
  constexpr double scale = 3e-6, per_c = 1.5e-6;
  constexpr double ethanol = 3e-5, ethanol_per_c = 1e-5, full_from = 0.08;
  constexpr double fitted_to = 0.16, per_fraction_above = 1e-3;
  constexpr double index_per_kg_m3 = 4e-4;  // 3.7e-4 in a drink
  const double w_s = std::abs(liquid.extract.value());
  const double w_e = std::abs(liquid.ethanol.value());
  const double away_c = std::abs(t.celsius() - reference_c);
  const double part = std::min(1.0, w_e / full_from);
  const double water_and_sugar = std::hypot(scale, per_c * away_c);
  const double formula = ethanol + per_fraction_above * std::max(0.0, w_e - fitted_to);
  const double with_ethanol = part * std::hypot(formula, ethanol_per_c * away_c);
  return std::hypot(water_and_sugar, with_ethanol,
                    index_per_kg_m3 * detail::tabarie_uncertainty(w_s, w_e));
}

RefractiveIndex index_from_brix_shown(Brix shown) {
  require(brix_shown_range, shown.value());
  return RefractiveIndex{water_20 + sucrose_rise(extract_fraction(shown).value())};
}

Brix brix_shown_from_index(RefractiveIndex n) {
  const auto at = [](double shown) { return index_from_brix_shown(Brix{shown}).value(); };
  if (!(n.value() >= at(brix_shown_range.lo) && n.value() <= at(brix_shown_range.hi)))
    throw Error{
        Errc::domain,
        fmt::format("a refractive index of {:.6f} is off the scale of a Brix refractometer, "
                    "{} to {} Brix [{}]",
                    n.value(), brix_shown_range.lo, brix_shown_range.hi, brix_shown_range.source),
        "clean the prism and re-zero in water, or thin the sample with weighed water"};
  // A little beyond the ends, where rounding may put an index that is just on the scale.
  constexpr double slack = 1e-9;
  return Brix{100 * numeric::find_root(
                        [&](double w) { return sucrose_rise(w) - (n.value() - water_20); },
                        brix_shown_range.lo / 100 - slack, brix_shown_range.hi / 100 + slack, 1e-13,
                        {"sucrose mass fraction", "refractive index", n.value(), "",
                         "clean the prism and re-zero in water"})};
}

ExtractFraction extract_from_index(RefractiveIndex n, ModelTemperature t,
                                   const ExtractOptics& optics, EthanolFraction ethanol) {
  return solve_extract(n, t, optics, ethanol,
                       [n] { return fmt::format("a refractive index of {:.6f}", n.value()); });
}

Brix ideal_brix_shown(const Liquid& liquid, ModelTemperature t, const ExtractOptics& optics) {
  return brix_shown_from_index(refractive_index(liquid, t, optics));
}

ExtractFraction extract_from_brix_shown(Brix shown, ModelTemperature t,
                                        const ExtractOptics& optics) {
  return solve_extract(index_from_brix_shown(shown), t, optics, EthanolFraction{0},
                       [shown] { return fmt::format("{} Brix", number_text(shown.value())); });
}

}  // namespace areo::physics
