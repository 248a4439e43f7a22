#include "drink.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "areo/core/error.hpp"
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

void require_fermentable(const Calibrated& instrument,
                         const instruments::HydrometerReading& reading,
                         const instruments::ReadingInputs& inputs, const uncertainty::Point& x,
                         ExtractFraction original) {
  const Temperature t = inputs.temperature(x);
  try {
    (void)ferment::fermented_to_density(original, inputs.density(x), t);
  } catch (const Error& e) {
    if (e.code != Errc::inconsistent) throw;
    const double all = ferment::ethanol_from_extracts(original, ExtractFraction{0}).value();
    const EthanolFraction most{std::min(all, physics::mixture_ethanol_range.hi)};
    const Density least = physics::density(ferment::fermented(original, most), t);
    throw Error{
        e.code,
        fmt::format("{} is lower than fermenting all of the extract could make it: {} would show "
                    "about {:.4g} at {:g} °C",
                    reading.indication, instrument.hydrometer.name,
                    ideal_indication(instrument.hydrometer, least, t), t.celsius()),
        e.hint};
  }
}

}  // namespace areo::measurement
