// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/measurement/alcohol.hpp"

#include <cmath>
#include <utility>
#include <vector>

#include "areo/core/error.hpp"
#include "areo/ferment/drink.hpp"
#include "areo/measurement/convert.hpp"
#include "areo/physics/mixture.hpp"
#include "drink.hpp"
#include "original.hpp"
#include "readings.hpp"

namespace areo::measurement {
namespace {

using physics::Liquid;
using uncertainty::Point;
using Sg = SpecificGravity<Ref20_20>;

constexpr const char* the_present = "the present gravity";

std::vector<Label> gravity_labels() {
  return {{"sg_20_20_original", "original gravity", ""},
          {"sg_20_20_present", "present gravity", ""}};
}

// As for every drink, and the trade's straight line beside it.
std::vector<Label> labels_with_rule() {
  std::vector<Label> labels = drink_labels();
  labels.push_back({"rule_of_thumb_percent_vol", "rule of thumb", "% vol"});
  return labels;
}

// Extract by which a present gravity may lie above the original and still be computed: more than
// any instrument leaves in doubt.
constexpr double a_little_above = 0.02;

Sg gravity(const Liquid& liquid) {
  return Sg{physics::mark_from_liquid(physics::sg_20_20, liquid)};
}

}  // namespace

Fermentation state_of(const Result& drink, ferment::Culture culture) {
  const uncertainty::Value& strength = drink.at("alcohol_percent_vol").value;
  if (strength.estimate <= strength.expanded()) return Fermentation::no_change;
  return culture == ferment::Culture::acetic ? Fermentation::bound : Fermentation::measured;
}

AlcoholResult alcohol(const Calibrated& instrument, const instruments::HydrometerReading& present,
                      const Calibrated& original_instrument,
                      const instruments::HydrometerReading& original, ferment::Culture culture) {
  return alcohol_of(HydrometerSample{instrument, present},
                    Original{.readings = {HydrometerSample{original_instrument, original}}},
                    culture, the_present);
}

void add_clean_yeast(AlcoholResult& drink, ferment::Culture culture,
                     const std::function<AlcoholResult()>& as_yeast) {
  if (culture != ferment::Culture::mixed || !drink.has_strength()) return;
  AlcoholResult yeast = as_yeast();
  if (yeast.has_strength()) drink.clean_yeast = std::move(yeast.result);
}

AlcoholResult alcohol_of(const HydrometerSample& present, const Original& original,
                         ferment::Culture culture, const std::string& of) {
  Readings readings;
  const OriginalInputs start{readings, original};
  const auto now = readings.add(present.instrument, present.reading, of);
  const std::vector<double> middle = readings.inputs.estimates();
  require_sugar_liquid(present.instrument, present.reading, now, Point{middle});
  const ExtractFraction original_estimate = start.estimate();
  const ExtractFraction present_estimate = extract_at(now, Point{middle});
  if (!(original_estimate.value() > 0))
    throw Error{Errc::inconsistent,
                "the original gravity is not above that of water: there was nothing to ferment",
                "check the reading, its temperature and the instrument's calibration"};
  const SugarFormula formula{readings.inputs, original_estimate, start.warmest()};
  std::optional<IndexModel> index;
  if (start.refracted())
    index.emplace(readings.inputs, original.kind, Liquid{original_estimate}, celsius_point(20));
  const auto original_at = [=](const Point& x) {
    return start.at(x, index ? &*index : nullptr, formula);
  };
  AlcoholResult outcome;
  const auto above = [&] {
    outcome.state = Fermentation::above;
    outcome.result = evaluate(
        readings,
        [=](const Point& x) {
          return std::vector{gravity({original_at(x)}).value(),
                             gravity({extract_at(now, x)}).value()};
        },
        gravity_labels());
  };
  // A little above is a little less alcohol than none; how little, the uncertainty has to say.
  if (present_estimate.value() > original_estimate.value() + a_little_above) {
    above();
  } else {
    const Liquid about =
        balance_behind(present.instrument, present.reading, now, Point{middle}, original_estimate);
    const DrinkMethod method{readings.inputs, culture};
    const DrinkDensity density{readings.inputs, physics::ethanol_model_uncertainty(about)};
    outcome.result = evaluate(
        readings,
        [=](const Point& x) {
          const ExtractFraction oe = original_at(x);
          const Density excess = density.excess(x);
          const Liquid drink = method.drink(x, oe, now, excess);
          std::vector<double> out = drink_outputs(x, formula, oe, drink, excess);
          out.push_back(ferment::rule_of_thumb_strength(Sg{out[1]}, Sg{out[2]}));
          return out;
        },
        labels_with_rule());
    judge_real_extract(outcome.result);
    judge_strength(outcome.result);
    outcome.state = state_of(outcome.result, culture);
    const uncertainty::Value& strength = outcome.result.at("alcohol_percent_vol").value;
    if (strength.estimate < -strength.expanded()) above();
  }
  add_notes(outcome.result.notes, original);
  add_notes(outcome.result.notes, present.instrument, present.reading, of);
  add_clean_yeast(outcome, culture,
                  [&] { return alcohol_of(present, original, ferment::Culture::yeast, of); });
  return outcome;
}

}  // namespace areo::measurement
