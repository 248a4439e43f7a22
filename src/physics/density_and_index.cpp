// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/physics/density_and_index.hpp"

#include "areo/core/error.hpp"
#include "areo/numeric/newton.hpp"
#include "areo/numeric/root.hpp"
#include "areo/physics/mixture.hpp"

namespace areo::physics {
namespace {

constexpr double fraction_tolerance = 1e-12;

bool in_range(const Liquid& liquid) {
  const double w = liquid.extract.value();
  const double p = liquid.ethanol.value();
  return w >= index_extract_range.lo && w <= index_extract_range.hi &&
         p >= index_ethanol_range.lo && p <= index_ethanol_range.hi;
}

}  // namespace

Liquid liquid_from_density_and_index(Density rho, ModelTemperature t_rho, RefractiveIndex n,
                                     ModelTemperature t_n, const ExtractOptics& optics) {
  return liquid_from_density_and_index([rho](EthanolFraction) { return rho; }, t_rho, n, t_n,
                                       optics);
}

Liquid liquid_from_density_and_index(const DensityRead& rho_read, ModelTemperature t_rho,
                                     RefractiveIndex n, ModelTemperature t_n,
                                     const ExtractOptics& optics) {
  require_drink_temperature(t_rho);
  require(index_temperature_range, t_n);
  const auto of = [](double w, double p) { return Liquid{ExtractFraction{w}, EthanolFraction{p}}; };
  // Both in comparable sizes: some 400 kg/m³ and 0.15 of index per unit of extract.
  const auto misfit = [&](const numeric::Pair& x) {
    const Liquid liquid = of(x[0], x[1]);
    return numeric::Pair{(density(liquid, t_rho) - rho_read(liquid.ethanol)).value() / 400,
                         (refractive_index(liquid, t_n, optics).value() - n.value()) / 0.15};
  };
  constexpr numeric::Pair usual_drink{0.04, 0.04};
  constexpr double difference = 1e-5;
  if (const auto x = numeric::newton(misfit, usual_drink, difference, fraction_tolerance))
    if (const Liquid liquid = of((*x)[0], (*x)[1]); in_range(liquid)) return liquid;
  // More alcohol at the same density means more extract too, so the index rises all the way.
  const auto at = [&](double p) {
    const EthanolFraction ethanol{p};
    return Liquid{extract_from_density(rho_read(ethanol), t_rho, ethanol), ethanol};
  };
  const auto excess = [&](double p) {
    const Liquid liquid = at(p);
    // Beyond the range of the index model nothing is known but the direction.
    if (liquid.extract.value() < index_extract_range.lo) return -1.0;
    if (liquid.extract.value() > index_extract_range.hi) return 1.0;
    return refractive_index(liquid, t_n, optics).value() - n.value();
  };
  const auto& range = index_ethanol_range;
  if (excess(range.hi) < 0 && at(range.hi).extract.value() <= index_extract_range.hi)
    throw too_strong();
  if (!(excess(range.lo) <= 0 && excess(range.hi) >= 0))
    throw Error{Errc::inconsistent, "no drink has this density and this refraction together",
                "read both again from one degassed, settled sample; check both instruments in "
                "water, and their scales"};
  const Liquid found =
      at(numeric::find_root(excess, range.lo, range.hi, fraction_tolerance,
                            {"ethanol mass fraction", "refractive index", n.value(), "",
                             "read both again from one degassed, settled sample"}));
  if (!in_range(found))
    throw Error{Errc::inconsistent, "no drink has this density and this refraction together",
                "read both again from one degassed, settled sample"};
  return found;
}

}  // namespace areo::physics
