// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/measurement/ferments.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "areo/core/error.hpp"
#include "areo/ferment/balling.hpp"
#include "areo/ferment/drink.hpp"
#include "areo/ferment/stoichiometry.hpp"
#include "areo/physics/carbon_dioxide.hpp"
#include "areo/physics/mixture.hpp"
#include "areo/physics/scale.hpp"
#include "bottle_inputs.hpp"
#include "drink.hpp"

namespace areo::measurement {

Made made_by_fall(double original_sg, double fall_sg) {
  constexpr double weakest = 1.010, strongest = 1.090, small = 0.001;
  if (!(fall_sg >= 0)) throw Error{Errc::domain, "a fall of gravity is not below zero"};
  const double sg = std::clamp(original_sg, weakest, strongest);
  const ModelTemperature room{celsius_point(20)}, warm{celsius_point(25)};
  const physics::Liquid before = physics::liquid_from_mark(physics::sg_20_20, sg);
  const physics::Liquid after = ferment::fermented_to_density(
      before.extract, physics::density_from_mark(physics::sg_20_20, sg - small), room);
  const double g_l =
      (extract_g_l(before) - extract_g_l(after)) * ferment::carbon_dioxide_per_sucrose;
  const physics::ClosedBottle bottle{warm, physics::solubility_in_water(warm), 0.04};
  constexpr double pa_per_bar = 1e5;
  const double times = fall_sg / small;
  return {times * ferment::strength_by_volume(after).value(),
          times * physics::carbon_dioxide_pressure(bottle, g_l).value() / pa_per_bar};
}

std::optional<uncertainty::Value> gravity_without_extract(const uncertainty::Value& original) {
  const ExtractFraction extract = extract_fraction(Plato{original.estimate});
  const EthanolFraction all = ferment::ethanol_from_extracts(extract, ExtractFraction{0});
  uncertainty::Inputs inputs;
  const uncertainty::InputRef of = inputs.add(
      uncertainty::normal("original extract", "% mass", original.estimate, original.u, "as read"));
  try {
    const DrinkMethod method{inputs};
    const DrinkDensity density{inputs,
                               physics::density_model_uncertainty({ExtractFraction{0}, all})};
    return uncertainty::propagate(
               inputs,
               [&](const uncertainty::Point& x) {
                 const physics::Liquid dry = method.dry(x, extract_fraction(Plato{x[of]}));
                 const Density rho = physics::density(dry, celsius_point(20)) + density.excess(x);
                 return std::vector{physics::mark_from_density(physics::sg_20_20, rho)};
               })
        .values.front();
  } catch (const Error&) {  // stronger than any drink that was measured
    return std::nullopt;
  }
}

void require_possible_end(double expected_sg, const uncertainty::Value& present,
                          const std::optional<uncertainty::Value>& original_extract) {
  if (expected_sg - present.estimate > present.expanded())
    throw Error{Errc::inconsistent,
                fmt::format("the expected {:.4f} is above the present gravity {:.4f}", expected_sg,
                            present.estimate),
                "the expected gravity is where the ferment should end"};
  if (!original_extract) return;
  const auto least = gravity_without_extract(*original_extract);
  if (least && expected_sg < least->estimate)
    throw Error{Errc::inconsistent,
                fmt::format("the expected {:.4f} is below {:.4f}, where all extract would be gone",
                            expected_sg, least->estimate),
                "leave --expected out to have all of it counted"};
}

}  // namespace areo::measurement
