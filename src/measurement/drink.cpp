#include "drink.hpp"

#include "areo/ferment/balling.hpp"
#include "areo/measurement/alcohol.hpp"
#include "areo/physics/mixture.hpp"

namespace areo::measurement {

DrinkMethod::DrinkMethod(uncertainty::Inputs& inputs)
    : factor_{inputs.add(uncertainty::normal("method: balance and density of the drink", "relative",
                                             1, method_uncertainty,
                                             "34 beers against distillation [tolman1917]"))} {}

physics::Liquid DrinkMethod::drink(const uncertainty::Point& x, ExtractFraction original,
                                   Density rho, Temperature t) const {
  const physics::Liquid balance = ferment::fermented_to_density(original, rho, t);
  const EthanolFraction ethanol{balance.ethanol.value() * x[factor_]};
  return {physics::extract_from_density(rho, t, ethanol), ethanol};
}

}  // namespace areo::measurement
