#include "areo/measurement/ferments.hpp"

#include <algorithm>

#include "areo/core/error.hpp"
#include "areo/ferment/drink.hpp"
#include "areo/ferment/stoichiometry.hpp"
#include "areo/physics/carbon_dioxide.hpp"
#include "areo/physics/scale.hpp"
#include "bottle_inputs.hpp"

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

}  // namespace areo::measurement
