#include "areo/instruments/thermometer.hpp"

#include <fmt/format.h>

#include "areo/core/error.hpp"

namespace areo::instruments {

void require_on_scale(const Thermometer& t, double c) {
  if (!(c >= t.lo_c && c <= t.hi_c))
    throw Error{Errc::domain,
                fmt::format("{} cannot show {} °C: its scale goes from {} to {} °C", t.name, c,
                            t.lo_c, t.hi_c),
                "check the digits and the unit"};
}

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
  return {indication, shared
                          ? shared
                          : add_correction(inputs, {r.thermometer->identity, r.thermometer->name},
                                           "°C", *r.correction, uncertainty::Origin::thermometer)};
}

}  // namespace areo::instruments
