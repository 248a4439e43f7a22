// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/measurement/solution.hpp"

#include "areo/core/error.hpp"
#include "areo/measurement/convert.hpp"
#include "areo/physics/scale_name.hpp"
#include "areo/physics/water.hpp"
#include "readings.hpp"

namespace areo::measurement {

Result describe_solution(const calibration::WeighedSolution& solution,
                         const instruments::TemperatureReading& temperature,
                         std::span<const instruments::Hydrometer> hydrometers,
                         std::span<const instruments::Refractometer> refractometers) {
  uncertainty::Inputs inputs;
  const calibration::SolutionInputs liquid{inputs, solution};
  instruments::require_temperature(physics::water_range, temperature);
  const auto at = instruments::add_temperature(inputs, "the solution", temperature);
  std::vector<Label> labels{{"mass_percent", "mass fraction", "% mass"},
                            {"density_at_t_kg_m3", "density at its temperature", "kg/m³"},
                            label_of(physics::sg_20_20)};
  for (const instruments::Hydrometer& h : hydrometers)
    labels.push_back({"shows_" + (h.name.empty() ? physics::scale_key(h.scale) : h.name),
                      h.name.empty() ? physics::scale_name(h.scale) : h.name,
                      physics::scale_unit(h.scale)});
  if (!refractometers.empty() && solution.solute != calibration::Solute::sucrose)
    throw Error{Errc::inconsistent, "areo has no model of a refractometer in a salt solution",
                "weigh in sugar: areo solution sugar"};
  for (const instruments::Refractometer& r : refractometers)
    labels.push_back({"shows_" + (r.name.empty() ? "brix_refractometer" : r.name),
                      r.name.empty() ? "Brix refractometer" : r.name,
                      r.scale == instruments::RefractometerScale::brix ? "Brix" : ""});
  const auto model = [=, stems = std::vector(hydrometers.begin(), hydrometers.end()),
                      prisms = std::vector(refractometers.begin(), refractometers.end())](
                         const uncertainty::Point& x) {
    const ModelTemperature t = at.at(x);
    const Density rho = liquid.density(x, t);
    std::vector<double> out{
        100 * liquid.fraction(x), rho.value(),
        physics::mark_from_density(physics::sg_20_20, liquid.density(x, celsius_point(20)))};
    for (const instruments::Hydrometer& h : stems)
      out.push_back(instruments::usual_indication(h, rho, t));
    for (const instruments::Refractometer& r : prisms)
      out.push_back(instruments::ideal_indication(r, {ExtractFraction{liquid.fraction(x)}}, t));
    return out;
  };
  Result result = evaluate(inputs, model, std::move(labels));
  if (temperature.thermometer && temperature.correction)
    add_remarks(result.notes, temperature.correction->remarks);
  return result;
}

}  // namespace areo::measurement
