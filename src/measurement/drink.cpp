#include "drink.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "areo/core/error.hpp"
#include "areo/ferment/balling.hpp"
#include "areo/ferment/drink.hpp"
#include "areo/measurement/alcohol.hpp"
#include "areo/physics/mixture.hpp"
#include "readings.hpp"

namespace areo::measurement {

DrinkMethod::DrinkMethod(uncertainty::Inputs& inputs, ferment::Culture culture)
    : factor_{inputs.add(from(
          uncertainty::Origin::method,
          uncertainty::normal("method: balance and density of the drink", "relative", 1,
                              method_uncertainty, "34 beers against distillation [tolman1917]")))} {
  if (culture == ferment::Culture::mixed)
    acids_ = inputs.add(from(
        uncertainty::Origin::method,
        uncertainty::between(
            "share of the fermented sugar that became acids", "", 0, ferment::most_sugar_to_acids,
            "mixed culture: engineering judgement, 30 % of the sugar the heterofermentative way")));
}

EthanolFraction DrinkMethod::ethanol(const uncertainty::Point& x,
                                     const physics::Liquid& balance) const {
  return EthanolFraction{balance.ethanol.value() * x[factor_] * (acids_ ? 1 - x[*acids_] : 1)};
}

physics::Liquid DrinkMethod::drink(const uncertainty::Point& x, ExtractFraction original,
                                   Density rho, ModelTemperature t) const {
  const physics::Liquid balance = ferment::fermented_to_density(original, rho, t);
  const EthanolFraction a = ethanol(x, balance);
  return {physics::extract_from_density(rho, t, a), a};
}

physics::Liquid DrinkMethod::drink(const uncertainty::Point& x, ExtractFraction original,
                                   RefractiveIndex n, ModelTemperature t,
                                   const physics::ExtractOptics& optics) const {
  const physics::Liquid balance = ferment::fermented_to_index(original, n, t, optics);
  const EthanolFraction a = ethanol(x, balance);
  return {physics::extract_from_index(n, t, optics, a), a};
}

ExtractFraction DrinkMethod::original(const uncertainty::Point& x,
                                      const physics::Liquid& drink) const {
  const double kept = x[factor_] * (acids_ ? 1 - x[*acids_] : 1);
  return ferment::original_extract({drink.extract, EthanolFraction{drink.ethanol.value() / kept}});
}

physics::Liquid DrinkMethod::dry(const uncertainty::Point& x, ExtractFraction original) const {
  constexpr ExtractFraction none{0};
  return {none, ethanol(x, {none, ferment::ethanol_from_extracts(original, none)})};
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
          {"energy_kj_per_100_ml", "energy", "kJ/100 mL"}};
}

std::vector<double> drink_outputs(const uncertainty::Point& x, const SugarFormula& formula,
                                  ExtractFraction oe, const physics::Liquid& drink) {
  const Density rho_20 = physics::density(drink, celsius_point(20));
  const Plato apparent = plato(formula.extract(x, rho_20, celsius_point(20)));
  return {ferment::strength_by_volume(drink).value(),
          formula.mark(x, physics::sg_20_20, oe),
          physics::mark_from_liquid(physics::sg_20_20, drink),
          ferment::strength_by_mass(drink).value(),
          plato(oe).value(),
          ferment::real_extract(drink).value(),
          apparent.value(),
          ferment::attenuation(oe, apparent),
          ferment::attenuation(oe, ferment::real_extract(drink)),
          ferment::energy_kj_per_100_ml(drink)};
}

void judge_real_extract(Result& drink) {
  constexpr double beyond_doubt = 4;
  const uncertainty::Value& extract = drink.at("real_extract_percent").value;
  if (extract.estimate >= -extract.expanded()) return;
  const std::string why = fmt::format(
      "lower than fermenting all of the extract could make it: {:.1f} ± {:.1f} % mass would be "
      "left",
      extract.estimate, extract.expanded());
  if (extract.estimate < -beyond_doubt * extract.u)
    throw Error{Errc::inconsistent, "the present reading is " + why,
                "check both readings, their temperatures and whether sugar was added since"};
  drink.notes.insert(drink.notes.begin(),
                     "the present reading is " + why + "; check both readings");
}

void note_strong(Result& drink) {
  constexpr double strongest_compared = 7.2;  // % vol, of the beers in [tolman1917]
  if (drink.at("alcohol_percent_vol").value.estimate > strongest_compared)
    drink.notes.push_back(
        fmt::format("stronger than the {} % vol up to which the method was compared with "
                    "distillation: its 2.5 % are taken on trust here",
                    strongest_compared));
}

void require_fermentable(const Calibrated& instrument,
                         const instruments::HydrometerReading& reading,
                         const instruments::ReadingInputs& inputs, const uncertainty::Point& x,
                         ExtractFraction original) {
  require_drink_temperature(reading.temperature);
  const ModelTemperature t = inputs.temperature(x);
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
