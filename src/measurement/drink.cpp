// SPDX-License-Identifier: GPL-3.0-or-later
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
    : yield_{inputs.add(
          from(uncertainty::Origin::method,
               uncertainty::normal("yield: extract per alcohol", "g/g",
                                   ferment::balling_yield.extract_per_ethanol,
                                   ferment::yield_uncertainty,
                                   "[balling]; scatter of 34 distilled beers [tolman1917]")))},
      growth_{inputs.add(
          from(uncertainty::Origin::method,
               uncertainty::rectangular("extract that the yeast grew from", "g/g", 0,
                                        ferment::growth_half_width,
                                        "beside the balance's share: engineering judgement")))} {
  if (culture == ferment::Culture::mixed)
    acids_ = inputs.add(from(
        uncertainty::Origin::method,
        uncertainty::between(
            "share of the fermented sugar that became acids", "", 0, ferment::most_sugar_to_acids,
            "mixed culture: engineering judgement, 30 % of the sugar the heterofermentative way")));
}

physics::Liquid DrinkMethod::drink(const uncertainty::Point& x, ExtractFraction original,
                                   const instruments::ReadingInputs& reading,
                                   Density excess) const {
  const ModelTemperature t = reading.temperature(x);
  const auto rho = [&](EthanolFraction a) { return reading.density(x, a) - excess; };
  const physics::Liquid balance =
      ferment::fermented_to_density(balanced(x, original), rho, t, yield(x));
  if (!acids_) return balance;
  const EthanolFraction a{kept(x) * balance.ethanol.value()};
  return {physics::extract_from_density(rho(a), t, a), a};
}

physics::Liquid DrinkMethod::drink(const uncertainty::Point& x, ExtractFraction original,
                                   RefractiveIndex n, ModelTemperature t,
                                   const physics::ExtractOptics& optics) const {
  const physics::Liquid balance =
      ferment::fermented_to_index(balanced(x, original), n, t, optics, yield(x));
  if (!acids_) return balance;
  const EthanolFraction a{kept(x) * balance.ethanol.value()};
  return {physics::extract_from_index(n, t, optics, a), a};
}

ExtractFraction DrinkMethod::original(const uncertainty::Point& x,
                                      const physics::Liquid& drink) const {
  const ExtractFraction of_balance = ferment::original_extract(
      {drink.extract, EthanolFraction{drink.ethanol.value() / kept(x)}}, yield(x));
  return ExtractFraction{of_balance.value() + x[growth_]};
}

physics::Liquid DrinkMethod::dry(const uncertainty::Point& x, ExtractFraction original) const {
  constexpr ExtractFraction none{0};
  const EthanolFraction all = ferment::ethanol_from_extracts(balanced(x, original), none, yield(x));
  return {none, EthanolFraction{kept(x) * all.value()}};
}

DrinkDensity::DrinkDensity(uncertainty::Inputs& inputs, double u)
    : excess_{inputs.add(
          from(uncertainty::Origin::formula,
               uncertainty::normal("density of the drink", "kg/m³", 0, u,
                                   "agreement of published formulas and tables; Tabarié's "
                                   "relation")))} {}

Density DrinkDensity::excess(const uncertainty::Point& x) const { return kg_per_m3(x[excess_]); }

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
                                  ExtractFraction oe, const physics::Liquid& drink,
                                  Density excess) {
  const Density rho_20 = physics::density(drink, celsius_point(20)) + excess;
  const Plato apparent = plato(formula.extract(x, rho_20, celsius_point(20)));
  return {ferment::strength_by_volume(drink).value(),
          formula.mark(x, physics::sg_20_20, oe),
          physics::mark_from_density(physics::sg_20_20, rho_20),
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
  if (extract.estimate < -beyond_doubt * extract.u)
    throw Error{
        Errc::inconsistent,
        fmt::format("the present reading is lower than fermenting all of the extract could make "
                    "it: {:.1f} ± {:.1f} % mass would be left",
                    extract.estimate, extract.expanded()),
        "check both readings, their temperatures and whether sugar was added since"};
  drink.notes.insert(drink.notes.begin(), note::BelowDry{extract.estimate, extract.expanded()});
}

void judge_strength(Result& drink) {
  if (drink.at("alcohol_percent_mass").value.estimate > 100 * physics::strongest_covered.value())
    throw physics::too_strong();
  const uncertainty::Value& strength = drink.at("alcohol_percent_vol").value;
  if (strength.estimate > ferment::strongest_compared_percent_vol)
    drink.method_notes.emplace_back(
        note::BeyondComparison{ferment::strongest_compared_percent_vol, true});
  else if (strength.estimate > strength.expanded() &&
           strength.estimate < ferment::weakest_compared_percent_vol)
    drink.method_notes.emplace_back(
        note::BeyondComparison{ferment::weakest_compared_percent_vol, false});
}

physics::Liquid balance_behind(const Calibrated& instrument,
                               const instruments::HydrometerReading& reading,
                               const instruments::ReadingInputs& inputs,
                               const uncertainty::Point& x, ExtractFraction original) {
  require_drink_temperature(reading.temperature);
  const ModelTemperature t = inputs.temperature(x);
  try {
    return ferment::fermented_to_density(
        original, [&](EthanolFraction a) { return inputs.density(x, a); }, t);
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
                    usual_indication(instrument.hydrometer, least, t, most), t.celsius()),
        e.hint};
  }
}

}  // namespace areo::measurement
