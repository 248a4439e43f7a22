#include "areo/instruments/thermometer.hpp"

namespace areo::instruments {

TemperatureReading assumed_temperature(Temperature reference) {
  TemperatureReading r;
  r.indication_c = reference.celsius();
  r.half_width_c = 5;
  r.provenance = "no temperature given: the scale's reference temperature, within ± 5 °C";
  r.assumed = true;
  return r;
}

Temperature TemperatureInputs::at(const uncertainty::Point& x) const {
  const double c = x[indication];
  return celsius_point(correction ? c + correction->at(x, c) : c);
}

TemperatureInputs add_temperature(uncertainty::Inputs& inputs, const std::string& of,
                                  const TemperatureReading& r,
                                  const std::optional<CorrectionInputs>& shared) {
  const auto indication =
      inputs.add(from(uncertainty::Origin::temperature,
                      uncertainty::rectangular("temperature of " + of, "°C", r.indication_c,
                                               r.half_width_c, r.provenance)));
  if (!r.thermometer || !r.correction) return {indication, std::nullopt};
  return {indication, shared ? shared
                             : add_correction(inputs, r.thermometer->name, "°C", *r.correction,
                                              uncertainty::Origin::thermometer)};
}

}  // namespace areo::instruments
