// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/ferment/balling.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "areo/core/error.hpp"
#include "areo/numeric/root.hpp"
#include "areo/physics/mixture.hpp"
#include "numeric/secant.hpp"

namespace areo::ferment {
namespace {

// Readings scatter: a little less than no alcohol, and a little less than no extract, must still
// give a number so that the uncertainty can be seen to cover zero.
constexpr double least_ethanol = -0.02;
constexpr double least_extract = -0.02;

// fermented() as a line.
physics::CompositionLine line_of(ExtractFraction original, Yield yield) {
  return {original, original.value() * yield.mass_lost_per_ethanol() - yield.extract_per_ethanol};
}

// The drink on the Balling line whose property is the one measured.
// @param what    its name for messages
// @param models  how much ethanol the models of the property cover
// @param excess  of the property over the measured value; falls along the line
// @param quick   the ethanol where there is one between two fractions; it may find none
template <class Excess, class Quick>
physics::Liquid fermented_to(ExtractFraction original, Yield yield, const Range& models,
                             const char* what, const Excess& excess, const Quick& quick) {
  const double all = ethanol_from_extracts(original, ExtractFraction{least_extract}, yield).value();
  const double most = std::min(all, models.hi);
  const auto at = [&](double a) { return excess(fermented(original, EthanolFraction{a}, yield)); };
  const std::optional<EthanolFraction> found = quick(at, most);
  if (found && found->value() >= least_ethanol && found->value() <= most)
    return fermented(original, *found, yield);
  if (at(least_ethanol) < 0)
    throw Error{Errc::inconsistent, fmt::format("the present {0} is above the original {0}", what),
                "bubbles, swapped or misread values, a wrong temperature, sugar added since, or "
                "layers that were not mixed"};
  if (at(most) > 0 && most < all) throw physics::too_strong();
  if (at(most) > 0)
    throw Error{
        Errc::inconsistent,
        fmt::format("the present {} is lower than fermenting all of the extract could make it",
                    what),
        "check both readings, their temperatures and whether sugar was added since"};
  return fermented(original,
                   EthanolFraction{numeric::find_root(
                       at, least_ethanol, most, 1e-13,
                       {"ethanol mass fraction", "original extract", 100 * original.value(),
                        "% mass", "check both readings and their temperatures"})},
                   yield);
}

}  // namespace

physics::Liquid fermented(ExtractFraction original, EthanolFraction ethanol, Yield yield) {
  const double a = ethanol.value();
  return {ExtractFraction{original.value() * (1 + yield.mass_lost_per_ethanol() * a) -
                          yield.extract_per_ethanol * a},
          ethanol};
}

ExtractFraction original_extract(const physics::Liquid& drink, Yield yield) {
  const double a = drink.ethanol.value();
  return ExtractFraction{(yield.extract_per_ethanol * a + drink.extract.value()) /
                         (1 + yield.mass_lost_per_ethanol() * a)};
}

EthanolFraction ethanol_from_extracts(ExtractFraction original, ExtractFraction real, Yield yield) {
  return EthanolFraction{
      (original.value() - real.value()) /
      (yield.extract_per_ethanol - yield.mass_lost_per_ethanol() * original.value())};
}

physics::Liquid fermented_to_density(ExtractFraction original, Density rho, ModelTemperature t,
                                     Yield yield) {
  return fermented_to_density(
      original, [rho](EthanolFraction) { return rho; }, t, yield);
}

physics::Liquid fermented_to_density(ExtractFraction original, const physics::DensityRead& rho_read,
                                     ModelTemperature t, Yield yield) {
  physics::require_drink_temperature(t);  // also where no ethanol comes out
  return fermented_to(
      original, yield, physics::mixture_ethanol_range, "gravity",
      [&](const physics::Liquid& drink) {
        return (physics::density(drink, t) - rho_read(drink.ethanol)).value();
      },
      [&](const auto&, double) {
        return physics::ethanol_on_line(line_of(original, yield), rho_read, t);
      });
}

physics::Liquid fermented_to_index(ExtractFraction original, RefractiveIndex n, ModelTemperature t,
                                   const physics::ExtractOptics& optics, Yield yield) {
  return fermented_to(
      original, yield, physics::index_ethanol_range, "refraction",
      [&](const physics::Liquid& drink) {
        return physics::refractive_index(drink, t, optics).value() - n.value();
      },
      [](const auto& at, double most) -> std::optional<EthanolFraction> {
        constexpr double usual_drink = 0.04;
        if (!(most > 0)) return std::nullopt;
        const auto a = numeric::secant(at, 0, std::min(usual_drink, most / 2), least_ethanol, most);
        return a ? std::optional{EthanolFraction{*a}} : std::nullopt;
      });
}

double balling_table_alcohol(double difference_percent, double original_percent) {
  const double b = 100 / (206.65 - 1.0665 * original_percent);
  const double q = 1.220 + 0.001 * original_percent;
  return difference_percent * b / (q - 1);
}

}  // namespace areo::ferment
