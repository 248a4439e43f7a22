// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/measurement/temperature_table.hpp"

#include <cmath>

#include "areo/core/error.hpp"
#include "areo/ferment/drink.hpp"
#include "areo/measurement/convert.hpp"
#include "areo/physics/mixture.hpp"
#include "areo/physics/scale_name.hpp"
#include "index_model.hpp"

namespace areo::measurement {
namespace {

// [sps4] against the hydrometer corrections of [nbsc440]: rms 0.05 kg/m³ over some 15 °C. For a
// drink with alcohol nothing was at hand; the same is taken, from judgement.
constexpr double expansion_kg_m3_per_c = 0.05 / 15;

Result with_alcohol(const Calibrated& instrument, double indication, Temperature t,
                    StrengthByVolume alcohol) {
  const instruments::Hydrometer& h = instrument.hydrometer;
  uncertainty::Inputs inputs;
  const auto stem = instruments::add_hydrometer(inputs, h, instrument.correction);
  const auto expansion = inputs.add(uncertainty::from(
      uncertainty::Origin::formula,
      uncertainty::normal("thermal expansion of the drink", "kg/m³/°C", 0, expansion_kg_m3_per_c,
                          "as for sugar solutions, from judgement")));
  // How hard the surface pulls depends on the ethanol by mass, and that a little on the density.
  const auto drink_at = [=](const uncertainty::Point& x) {
    physics::Liquid drink;
    for (int step = 0; step < 4; ++step) {
      const Density rho = stem.density(x, indication + stem.correction_at(x, indication), t,
                                       instruments::surface_of(drink.ethanol, t));
      drink = ferment::drink_of_strength(alcohol, rho, t);
    }
    return drink;
  };
  return evaluate(
      inputs,
      [=](const uncertainty::Point& x) {
        const physics::Liquid drink = drink_at(x);
        const Temperature reference = h.scale.reference();
        const Density at_reference =
            physics::density(drink, reference) + kg_per_m3(x[expansion] * (reference - t).value());
        return std::vector{physics::mark_from_density(h.scale, at_reference) - indication};
      },
      {{"correction", "correction", physics::scale_unit(h.scale)}});
}

Result of_sugar(const Calibrated& instrument, double indication, Temperature t) {
  const instruments::Hydrometer& h = instrument.hydrometer;
  uncertainty::Inputs inputs;
  const auto stem = instruments::add_hydrometer(inputs, h, instrument.correction);
  const auto rho_at = [=](const uncertainty::Point& x) {
    return stem.density(x, indication + stem.correction_at(x, indication), t,
                        instruments::surface_of(EthanolFraction{0}, t));
  };
  const std::vector<double> middle = inputs.estimates();
  const SugarFormula formula{
      inputs, physics::extract_from_density(rho_at(uncertainty::Point{middle}), t), t};
  return evaluate(
      inputs,
      [=](const uncertainty::Point& x) {
        return std::vector{formula.mark(x, h.scale, formula.extract(x, rho_at(x), t)) - indication};
      },
      {{"correction", "correction", physics::scale_unit(h.scale)}});
}

}  // namespace

Calibrated without_error(const instruments::Hydrometer& h) {
  return {h, {.checked_lo = h.lo, .checked_hi = h.hi, .checks = 1, .provenance = "without error"}};
}

Result temperature_correction(const Calibrated& instrument, double indication, Temperature t,
                              StrengthByVolume alcohol) {
  instruments::require_on_scale(instrument.hydrometer, indication);
  if (!(alcohol.value() >= 0))
    throw Error{Errc::domain, "a strength is not below zero", "0 stands for a sugar liquid"};
  if (alcohol.value() > 0) physics::require_drink_temperature(t);
  return alcohol.value() > 0 ? with_alcohol(instrument, indication, t, alcohol)
                             : of_sugar(instrument, indication, t);
}

Result temperature_correction(const CalibratedRefractometer& instrument, double indication,
                              Temperature t, const ExtractKind& kind) {
  const instruments::Refractometer& r = instrument.refractometer;
  if (r.scale != instruments::RefractometerScale::brix)
    throw Error{Errc::domain, "what to add in Brix is for Brix scales",
                "a reading of another scale goes to: areo refract"};
  instruments::require_on_scale(r, indication);
  require(physics::index_temperature_range, t.celsius());
  constexpr double reference_c = 20;
  const Temperature of_index = r.compensated ? celsius_point(reference_c) : t;
  uncertainty::Inputs inputs;
  const auto prism = instruments::add_refractometer(inputs, r, instrument.correction);
  const auto compensation = inputs.add(
      instruments::compensation_input(r, std::abs(t.celsius() - reference_c), "the sample"));
  const auto read = [=](const uncertainty::Point& x) {
    return physics::index_from_brix_shown(
        Brix{indication + x[compensation] + prism.correction.at(x, indication)});
  };
  const std::vector<double> middle = inputs.estimates();
  const ExtractFraction about =
      physics::extract_from_index(read(uncertainty::Point{middle}), of_index, kind.optics);
  const IndexModel index{inputs, kind, {about}, of_index};
  return evaluate(
      inputs,
      [=](const uncertainty::Point& x) {
        const double extract =
            plato(physics::extract_from_index(index.index(x, read(x)), of_index, index.optics(x)))
                .value();
        return std::vector{extract - indication, extract};
      },
      {{"correction", "correction", "Brix"}, {"extract_percent", "extract", "% mass"}});
}

Result temperature_correction(const instruments::Thermometer& thermometer,
                              const instruments::Correction& correction, double indication_c) {
  instruments::require_on_scale(thermometer, indication_c);
  uncertainty::Inputs inputs;
  const auto own = instruments::add_correction(inputs, {thermometer.identity, thermometer.name},
                                               "°C", correction, uncertainty::Origin::thermometer);
  return evaluate(inputs,
                  [=](const uncertainty::Point& x) {
                    const double add = own.at(x, indication_c);
                    return std::vector{add, indication_c + add};
                  },
                  {{"correction", "correction", "°C"}, {"temperature_c", "temperature", "°C"}});
}

}  // namespace areo::measurement
