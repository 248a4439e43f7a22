// SPDX-License-Identifier: GPL-3.0-or-later
#include "bottle_inputs.hpp"

#include <algorithm>

#include "areo/ferment/drink.hpp"
#include "areo/ferment/stoichiometry.hpp"
#include "areo/physics/boiling.hpp"
#include "areo/physics/mixture.hpp"
#include "areo/physics/scale.hpp"

namespace areo::measurement {
namespace {

using physics::ClosedBottle;
using physics::Liquid;
using uncertainty::Inputs;
using uncertainty::Origin;
using uncertainty::Point;

constexpr double pa_per_bar = 1e5;
constexpr double weather_bar = 0.02;  // as standard_pressure() says

// Position of a quantity among the outputs of the model.
std::size_t place(const Result& r, std::string_view key) {
  return static_cast<std::size_t>(&r.at(key) - r.quantities.data());
}

}  // namespace

// kg/m³ is g/L.
double extract_g_l(const Liquid& drink) {
  return drink.extract.value() * physics::density(drink, celsius_point(20)).value();
}

BottleInputs::BottleInputs(Inputs& inputs, const Result& drink, const BottlePlan& plan)
    : drink_{drink.model},
      original_{place(drink, "original_extract_percent")},
      extract_{place(drink, "real_extract_percent")},
      gravity_{place(drink, "sg_20_20_present")},
      mass_{place(drink, "alcohol_percent_mass")},
      expected_sg_{plan.expected_sg},
      closing_{add_temperature(inputs, "the drink when it is closed", plan.closing)},
      storage_{inputs.add(from(Origin::temperature,
                               uncertainty::rectangular("storage temperature", "°C", plan.storage_c,
                                                        plan.storage_half_width_c,
                                                        "as stated, or a room within 5 °C")))},
      headspace_{inputs.add(uncertainty::rectangular(
          "headspace", "of the bottle", plan.headspace, plan.headspace_half_width,
          "as stated, or as is usual: common practice, no source"))},
      atmosphere_{
          inputs.add(uncertainty::normal("pressure of the atmosphere", "bar",
                                         physics::standard_pressure(metres(0)).value() / pa_per_bar,
                                         weather_bar, "sea level and its weather [isa]"))},
      saturation_{inputs.add(uncertainty::between(
          "saturation with carbon dioxide", "", 0, 1,
          "between a degassed drink and one that has just stopped fermenting"))},
      yield_{inputs.add(
          from(Origin::method,
               uncertainty::between("carbon dioxide from extract", "g/g",
                                    ferment::carbon_dioxide_per_extract,
                                    ferment::carbon_dioxide_per_sucrose,
                                    "wort by Balling to sucrose completely fermented [balling]")))},
      water_{inputs.add(from(
          Origin::formula,
          uncertainty::normal("solubility in water", "relative", 1, physics::solubility_uncertainty,
                              "against five laboratories [carroll1991]")))},
      ratio_{inputs.add(from(
          Origin::formula,
          uncertainty::normal("what alcohol and sugar take from it", "relative", 1,
                              physics::solubility_ratio_uncertainty,
                              "formula of 20 °C against two drinks [eu2676-90, acs-omega2021]")))},
      beyond_{inputs.add(from(
          Origin::formula, uncertainty::between("gas and solution beyond ideal laws", "1/bar",
                                                physics::beyond_ideal_lo, physics::beyond_ideal_hi,
                                                "fugacity, from memory")))} {}

Drinks BottleInputs::drinks(const Point& x) const {
  const std::vector<double> of = drink_(x);
  const ExtractFraction original = extract_fraction(Plato{of[original_]});
  Drinks d;
  d.now = {extract_fraction(Plato{of[extract_]}), EthanolFraction{of[mass_] / 100}};
  const double more = ferment::ethanol_from_extracts(d.now.extract, ExtractFraction{0}).value();
  d.all = {ExtractFraction{0}, EthanolFraction{std::min(d.now.ethanol.value() + more,
                                                        physics::mixture_ethanol_range.hi)}};
  if (!expected_sg_) return d;
  const auto on_the_line = [&](double sg) {
    return ferment::fermented_to_density(
        original, physics::density_from_mark(physics::sg_20_20, sg), celsius_point(20));
  };
  d.from = on_the_line(of[gravity_]);
  d.expected = on_the_line(*expected_sg_);
  return d;
}

double BottleInputs::solubility(const Point& x, ModelTemperature t, const Liquid& drink) const {
  const double taken = 1 - physics::solubility_ratio(ferment::strength_by_volume(drink),
                                                     MassConcentration{extract_g_l(drink)});
  return x[water_] * physics::solubility_in_water(t) * (1 - x[ratio_] * taken);
}

double BottleInputs::dissolved(const Point& x, const Drinks& d) const {
  return x[saturation_] * x[atmosphere_] * solubility(x, closing_.at(x), d.now);
}

ClosedBottle BottleInputs::closed(const Point& x, const Liquid& drink) const {
  const auto t = ModelTemperature::drawn(celsius_point(x[storage_]));
  return {t, solubility(x, t, drink), x[headspace_], x[beyond_]};
}

double BottleInputs::gauge_bar(const Point& x, const ClosedBottle& bottle, Pressure p) const {
  return physics::gauge_pressure(bottle, p, pascals(pa_per_bar * x[atmosphere_]), closing_.at(x))
             .value() /
         pa_per_bar;
}

void BottleInputs::append(std::vector<double>& out, const Point& x, const Liquid& drink,
                          double total) const {
  const ClosedBottle bottle = closed(x, drink);
  out.push_back(total);
  out.push_back(total / physics::carbon_dioxide_g_per_volume);
  out.push_back(gauge_bar(x, bottle, physics::carbon_dioxide_pressure(bottle, total)));
}

}  // namespace areo::measurement
