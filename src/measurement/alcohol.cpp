#include "areo/measurement/alcohol.hpp"

#include <cmath>
#include <vector>

#include "areo/core/error.hpp"
#include "areo/ferment/drink.hpp"
#include "areo/measurement/convert.hpp"
#include "areo/physics/mixture.hpp"
#include "areo/physics/water.hpp"
#include "drink.hpp"
#include "readings.hpp"

namespace areo::measurement {
namespace {

using physics::Liquid;
using uncertainty::Point;
using Sg = SpecificGravity<Ref20_20>;

constexpr const char* the_original = "the original gravity";
constexpr const char* the_present = "the present gravity";

std::vector<Label> gravity_labels() {
  return {{"sg_20_20_original", "original gravity", ""},
          {"sg_20_20_present", "present gravity", ""}};
}

std::vector<Label> drink_labels() {
  return {{"alcohol_percent_vol", "alcohol", "% vol"},
          {"sg_20_20_original", "original gravity", ""},
          {"sg_20_20_present", "present gravity", ""},
          {"alcohol_percent_mass", "alcohol by mass", "% mass"},
          {"original_extract_percent", "original extract", "% mass"},
          {"real_extract_percent", "real extract", "% mass"},
          {"apparent_extract_percent", "apparent extract", "% mass"},
          {"apparent_attenuation_percent", "apparent attenuation", "%"},
          {"real_attenuation_percent", "real attenuation", "%"},
          {"energy_kj_per_100_ml", "energy", "kJ/100 mL"},
          {"rule_of_thumb_percent_vol", "rule of thumb", "% vol"}};
}

Sg gravity(const Liquid& liquid) {
  return Sg{physics::mark_from_liquid(physics::sg_20_20, liquid)};
}

}  // namespace

AlcoholResult alcohol(const Calibrated& instrument, const instruments::HydrometerReading& present,
                      const Calibrated& original_instrument,
                      const instruments::HydrometerReading& original) {
  Readings readings;
  const auto first = readings.add(original_instrument, original, the_original);
  const auto now = readings.add(instrument, present, the_present);
  const std::vector<double> middle = readings.inputs.estimates();
  require_sugar_liquid(original_instrument, original, first, Point{middle});
  require_sugar_liquid(instrument, present, now, Point{middle});
  const ExtractFraction original_estimate = extract_at(first, Point{middle});
  const ExtractFraction present_estimate = extract_at(now, Point{middle});
  if (!(original_estimate.value() > 0))
    throw Error{Errc::inconsistent,
                "the original gravity is not above that of water: there was nothing to ferment",
                "check the reading, its temperature and the instrument's calibration"};
  const SugarFormula formula{readings.inputs, original_estimate};
  AlcoholResult outcome;
  if (present_estimate > original_estimate) {
    outcome.state = Fermentation::above;
    outcome.result = evaluate(
        readings.inputs,
        [&](const Point& x) {
          return std::vector{gravity({extract_at(first, x)}).value(),
                             gravity({extract_at(now, x)}).value()};
        },
        gravity_labels());
  } else {
    require_fermentable(instrument, present, now, Point{middle}, original_estimate);
    const DrinkMethod method{readings.inputs};
    outcome.result = evaluate(
        readings.inputs,
        [&](const Point& x) {
          const ExtractFraction oe = formula.extract(x, first.density(x), first.temperature(x));
          const Density rho = now.density(x);
          const Temperature t = now.temperature(x);
          const Liquid drink = method.drink(x, oe, rho, t);
          const Density rho_20 = physics::density(drink, celsius_point(20));
          const Plato apparent = plato(formula.extract(x, rho_20, celsius_point(20)));
          const Sg sg_original{formula.mark(x, physics::sg_20_20, oe)};
          return std::vector{ferment::strength_by_volume(drink).value(),
                             sg_original.value(),
                             gravity(drink).value(),
                             ferment::strength_by_mass(drink).value(),
                             plato(oe).value(),
                             ferment::real_extract(drink).value(),
                             apparent.value(),
                             ferment::attenuation(oe, apparent),
                             ferment::attenuation(oe, ferment::real_extract(drink)),
                             ferment::energy_kj_per_100_ml(drink),
                             ferment::rule_of_thumb_strength(sg_original, gravity(drink))};
        },
        drink_labels());
    const uncertainty::Value& strength = outcome.result.at("alcohol_percent_vol").value;
    if (strength.estimate <= strength.expanded()) outcome.state = Fermentation::no_change;
  }
  add_notes(outcome.result.notes, original_instrument, original, the_original);
  add_notes(outcome.result.notes, instrument, present, the_present);
  return outcome;
}

}  // namespace areo::measurement
