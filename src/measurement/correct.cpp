// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/measurement/correct.hpp"

#include <vector>

#include "areo/core/error.hpp"
#include "areo/measurement/convert.hpp"
#include "areo/physics/mixture.hpp"
#include "areo/physics/scale_name.hpp"
#include "drink.hpp"
#include "readings.hpp"

namespace areo::measurement {
namespace {

using uncertainty::Point;

constexpr const char* the_sample = "the sample";
constexpr const char* the_original = "the original gravity";

// @param label  of a scale: label_of or apparent_label_of
std::vector<Label> labels(const physics::Scale& own, std::span<const physics::Scale> to,
                          Label (*label)(const physics::Scale&)) {
  std::vector<Label> all{label(own),
                         {"correction", "correction", physics::scale_unit(own)},
                         {"density_at_t_kg_m3", "density at its temperature", "kg/m³"}};
  for (const physics::Scale& s : to) all.push_back(label(s));
  return all;
}

// What a hot reading hangs on, and what helps. Both figures are the model's.
note::Hot hot_note(const Result& result, const instruments::ReadingInputs& sample,
                   const physics::Scale& own, ExtractFraction extract) {
  constexpr double warmest_room_c = 30;  // as for the cooling while it is read
  const auto indication = sample.temperature_inputs().indication;
  std::vector<double> x = result.inputs.estimates();
  const double t_c = x[indication.index];
  const auto own_mark_at = [&](double c) {
    x[indication.index] = c;
    return result.model(Point{x}).front();
  };
  const double a_degree = own_mark_at(t_c + 0.5) - own_mark_at(t_c - 0.5);
  // The extract stays where the water goes.
  constexpr double part_lost = 0.01;
  const ExtractFraction left{extract.value() / (1 - part_lost)};
  const double raised =
      physics::mark_from_liquid(own, {left}) - physics::mark_from_liquid(own, {extract});
  return {t_c, warmest_room_c, a_degree, extract.value() > part_lost ? raised : 0, own};
}

}  // namespace

Calibrated Calibrated::never_checked(const instruments::Hydrometer& h) {
  return {h, instruments::never_checked(h.division, h.lo, h.hi, h.length)};
}

Result correct(const Calibrated& instrument, const instruments::HydrometerReading& reading,
               std::span<const physics::Scale> to, const std::string& of) {
  const physics::Scale& own = instrument.hydrometer.scale;
  Readings readings;
  const auto sample = readings.add(instrument, reading, of);
  const std::vector<double> middle = readings.inputs.estimates();
  require_sugar_liquid(instrument, reading, sample, Point{middle});
  const ExtractFraction estimate = extract_at(sample, Point{middle});
  const Temperature at = instruments::estimated(reading.temperature);
  const SugarFormula formula{readings.inputs, estimate, at};
  const auto model = [=, scales = std::vector(to.begin(), to.end())](const Point& x) {
    const Density rho = sample.density(x);
    const ExtractFraction extract = formula.extract(x, rho, sample.temperature(x));
    const double at_reference = formula.mark(x, own, extract);
    std::vector<double> out{at_reference, at_reference - reading.indication, rho.value()};
    for (const physics::Scale& s : scales) out.push_back(formula.mark(x, s, extract));
    return out;
  };
  Result result = evaluate(readings, model, labels(own, to, label_of));
  add_notes(result.notes, instrument, reading, of);
  if (physics::degrees_hot(at.celsius()) > 0)
    result.notes.emplace_back(hot_note(result, sample, own, estimate));
  const uncertainty::Value& rho = result.at("density_at_t_kg_m3").value;
  const Density water = physics::density(physics::Liquid{}, at);
  if (rho.estimate + rho.expanded() < water.value())
    result.notes.emplace_back(note::LighterThanWater{});
  return result;
}

Result correct_fermenting(const Calibrated& instrument,
                          const instruments::HydrometerReading& reading,
                          const Calibrated& original_instrument,
                          const instruments::HydrometerReading& original,
                          std::span<const physics::Scale> to) {
  const physics::Scale& own = instrument.hydrometer.scale;
  Readings readings;
  const auto start = readings.add(original_instrument, original, the_original);
  const auto sample = readings.add(instrument, reading, the_sample);
  const std::vector<double> middle = readings.inputs.estimates();
  const Point estimate{middle};
  require_sugar_liquid(original_instrument, original, start, estimate);
  require_sugar_liquid(instrument, reading, sample, estimate);
  const ExtractFraction original_estimate = extract_at(start, estimate);
  if (extract_at(sample, estimate) > original_estimate)
    throw Error{Errc::inconsistent, "the reading is above the original gravity",
                "bubbles, swapped or misread values, a wrong temperature, sugar added since, or "
                "layers that were not mixed"};
  const physics::Liquid about =
      balance_behind(instrument, reading, sample, estimate, original_estimate);
  const SugarFormula formula{readings.inputs, original_estimate,
                             instruments::estimated(original.temperature)};
  const DrinkMethod method{readings.inputs};
  const DrinkDensity density{readings.inputs, physics::ethanol_model_uncertainty(about)};
  const auto model = [=, scales = std::vector(to.begin(), to.end())](const Point& x) {
    const ExtractFraction oe = formula.extract(x, start.density(x), start.temperature(x));
    const Density excess = density.excess(x);
    const physics::Liquid drink = method.drink(x, oe, sample, excess);
    const Density rho = sample.density(x, drink.ethanol);
    // A scale knows nothing of alcohol: it shows the sugar liquid of the drink's density.
    const auto shown = [&](const physics::Scale& s) {
      const Density rho_s = physics::density(drink, s.reference()) + excess;
      return formula.mark(x, s, formula.extract(x, rho_s, s.reference()));
    };
    const double at_reference = shown(own);
    std::vector<double> out{at_reference, at_reference - reading.indication, rho.value()};
    for (const physics::Scale& s : scales) out.push_back(shown(s));
    return out;
  };
  Result result = evaluate(readings, model, labels(own, to, apparent_label_of));
  add_notes(result.notes, original_instrument, original, the_original);
  add_notes(result.notes, instrument, reading, the_sample);
  return result;
}

}  // namespace areo::measurement
