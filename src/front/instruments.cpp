// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/front/instruments.hpp"

#include <fmt/format.h>

#include <utility>

#include "areo/core/range.hpp"

namespace areo {

TemperatureReading::TemperatureReading(Temperature t, const TemperatureDelta& half_width) {
  reading_.indication_c = t.celsius();
  reading_.half_width_c = half_width.value();
  reading_.provenance = fmt::format("stated, within ± {} °C", number_text(half_width.value()));
}

instruments::Thermometer Thermometer::inner() const {
  return {.name = name.empty() ? "the thermometer" : name,
          .lo_c = lo.celsius(),
          .hi_c = hi.celsius(),
          .division_c = division.value(),
          .identity = identity};
}

instruments::Correction Thermometer::correction_or_unchecked() const {
  return correction ? *correction
                    : instruments::never_checked(division.value(), lo.celsius(), hi.celsius());
}

TemperatureReading Thermometer::read(Temperature t) const {
  const instruments::Thermometer used = inner();
  instruments::require_on_scale(used, t.celsius());
  instruments::TemperatureReading r;
  r.indication_c = t.celsius();
  r.half_width_c = used.division_c / 2;
  r.provenance = "read to half a division of " + used.name;
  r.correction =
      correction ? *correction : instruments::never_checked(used.division_c, used.lo_c, used.hi_c);
  r.thermometer = used;
  return TemperatureReading{std::move(r)};
}

namespace {

// @param reference  at which the scale is right, where nobody took the temperature
template <class InnerReading>
InnerReading with_temperature(InnerReading reading, const std::optional<TemperatureReading>& t,
                              Temperature reference) {
  reading.identity = Identity{};
  reading.temperature = t ? t->inner() : instruments::assumed_temperature(reference);
  reading.temperature.identity = reading.identity;
  return reading;
}

}  // namespace

HydrometerReading::HydrometerReading(const measurement::Calibrated& instrument,
                                     const instruments::HydrometerReading& reading,
                                     const std::optional<TemperatureReading>& t)
    : sample_{instrument, with_temperature(reading, t, instrument.hydrometer.scale.reference())} {}

RefractometerReading::RefractometerReading(const measurement::CalibratedRefractometer& instrument,
                                           const instruments::RefractometerReading& reading,
                                           const std::optional<TemperatureReading>& t)
    : sample_{instrument, with_temperature(reading, t, celsius(20))} {}

}  // namespace areo
