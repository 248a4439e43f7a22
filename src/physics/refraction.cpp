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

namespace areo::physics {
namespace {

constexpr double reference_c = 20;

// Index of water in powers of t - 20 °C, fitted to values of [iapws-r9-97] from 0 °C to 60 °C.
constexpr std::array water_index{1.33298805, -8.98607548e-5, -1.73523691e-6, 1.26559536e-8,
                                 -8.99696107e-11};
// Rise of the index at 20 °C in powers 1 .. 5 of the sucrose fraction, fitted to [icumsa1974].
constexpr std::array sucrose_rise_20{0.1427118, 0.0550727, 0.0109783, 0.0147529, -0.0102486};
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

double fraction_from_rise(double rise, double least) {
  return numeric::find_root([rise](double w) { return sucrose_rise(w) - rise; }, least,
                            sucrose_index_range.hi, 1e-13, "sucrose mass fraction");
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

void require_liquid(const Liquid& liquid, Temperature t) {
  require(index_extract_range, liquid.extract.value());
  require(index_ethanol_range, liquid.ethanol.value());
  require(index_temperature_range, t.celsius());
}

}  // namespace

RefractiveIndex water_refractive_index(Temperature t) {
  require(water_index_range, t.celsius());
  return RefractiveIndex{water_at(t.celsius())};
}

RefractiveIndex sucrose_refractive_index_20(ExtractFraction w) {
  require(sucrose_index_range, w.value());
  return RefractiveIndex{water_20 + sucrose_rise(w.value())};
}

ExtractFraction extract_from_refractive_index_20(RefractiveIndex n) {
  static constexpr Range range{"refractive index at 20 °C", "", water_20,
                               water_20 + sucrose_rise(sucrose_index_range.hi), "icumsa1974"};
  if (n.value() < range.lo)
    throw Error{Errc::domain,
                fmt::format("a refractive index of {} at 20 °C is below that of water, {} [{}]",
                            n.value(), range.lo, water_index_range.source),
                "clean the prism, re-zero in water and read again"};
  require(range, n.value());
  return ExtractFraction{fraction_from_rise(n.value() - water_20, sucrose_index_range.lo)};
}

RefractiveIndex refractive_index(const Liquid& liquid, Temperature t, const ExtractOptics& optics) {
  require_liquid(liquid, t);
  require(relative_rise_range, optics.relative_rise);
  const double w_s = liquid.extract.value();
  const double w_e = liquid.ethanol.value();
  const double t_c = t.celsius();
  const double water = water_at(t_c);
  const double rho = density(liquid, t).value();
  const double water_change =
      lorentz_lorenz(water) * (rho / water_density(t).value() * (1 - w_s - w_e) - 1);
  const double extract = extract_share_20(w_s, optics.relative_rise) *
                         (1 + extract_refraction_per_c * (t_c - reference_c));
  const double ethanol = w_e * ethanol_refraction;
  return RefractiveIndex{index_after(water, water_change + rho * (extract + ethanol))};
}

double refractive_index_model_uncertainty(const Liquid& liquid, Temperature t) {
  require_liquid(liquid, t);
  constexpr double scale = 3e-6, per_c = 1.5e-6;
  constexpr double ethanol = 3e-5, ethanol_per_c = 1e-5, full_from = 0.08;
  // 10 kg/m³, the spread between forms of the density, times 3.7e-4 in index per kg/m³.
  constexpr double coupling = 0.004;
  const double w_s = std::abs(liquid.extract.value());
  const double w_e = std::abs(liquid.ethanol.value());
  const double away_c = std::abs(t.celsius() - reference_c);
  const double part = std::min(1.0, w_e / full_from);
  const double water_and_sugar = std::hypot(scale, per_c * away_c);
  const double with_ethanol = part * std::hypot(ethanol, ethanol_per_c * away_c);
  return std::hypot(water_and_sugar, with_ethanol, coupling * w_s * w_e);
}

Brix ideal_brix_shown(const Liquid& liquid, Temperature t, const ExtractOptics& optics) {
  constexpr double least = brix_shown_range.lo / 100;
  const double n = refractive_index(liquid, t, optics).value();
  const double rise = n - water_20;
  // The lower end of the scale is out of reach for every liquid in range.
  if (rise > sucrose_rise(sucrose_index_range.hi))
    throw Error{Errc::domain,
                fmt::format("a refractive index of {} is off the scale of a Brix refractometer, "
                            "which ends at {} Brix [{}]",
                            n, brix_shown_range.hi, brix_shown_range.source),
                "thin the sample with a weighed amount of water"};
  return brix(ExtractFraction{fraction_from_rise(rise, least)});
}

ExtractFraction extract_from_brix_shown(Brix shown, Temperature t, const ExtractOptics& optics) {
  require(brix_shown_range, shown.value());
  const double n = water_20 + sucrose_rise(extract_fraction(shown).value());
  const auto excess = [&](double w) {
    return refractive_index({ExtractFraction{w}}, t, optics).value() - n;
  };
  const auto& range = index_extract_range;
  const bool too_low = excess(range.lo) > 0;
  if (too_low || excess(range.hi) < 0)
    throw Error{Errc::domain,
                fmt::format("{} Brix at {} °C needs an extract mass fraction outside {} to {} [{}]",
                            shown.value(), t.celsius(), range.lo, range.hi, range.source),
                too_low ? "clean the prism, re-zero in water and read again"
                        : "thin the sample with a weighed amount of water"};
  return ExtractFraction{
      numeric::find_root(excess, range.lo, range.hi, 1e-13, "extract mass fraction")};
}

}  // namespace areo::physics
