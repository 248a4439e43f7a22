// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/instruments/thermometer.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "areo/core/error.hpp"

namespace areo::instruments {

void require_on_scale(const Thermometer& t, double c) {
  if (!(c >= t.lo_c && c <= t.hi_c))
    throw Error{Errc::domain,
                fmt::format("{} cannot show {} °C: its scale goes from {} to {} °C", t.name,
                            celsius_number_text(c), t.lo_c, t.hi_c),
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

Temperature estimated(const TemperatureReading& r) {
  const double c = r.indication_c;
  return celsius_point(r.thermometer && r.correction ? c + r.correction->at(c) : c);
}

void require_temperature(const Range& range, const TemperatureReading& r) {
  const double c = estimated(r).celsius();
  require(range, c);
  constexpr double beyond = ModelTemperature::most_beyond_c;
  if (c - r.half_width_c >= range.lo - beyond && c + r.half_width_c <= range.hi + beyond) return;
  throw Error{Errc::domain,
              fmt::format("{} is valid {} {} to {} {} [{}]; {} ± {} {} reaches too far beyond",
                          range.quantity, range.lo, range.unit, range.hi, range.unit, range.source,
                          celsius_number_text(c), celsius_number_text(r.half_width_c), range.unit),
              "read the temperature better, or bring the liquid nearer to room temperature"};
}

double cooling_half_width_c(double t_c) {
  constexpr double coldest_room_c = 10, warmest_room_c = 30, part = 0.03;
  return part * std::max({0.0, coldest_room_c - t_c, t_c - warmest_room_c});
}

ModelTemperature TemperatureInputs::at(const uncertainty::Point& x) const {
  const double c = x[indication];
  const double liquid = cooling ? c + x[*cooling] : c;
  return ModelTemperature::drawn(
      celsius_point(correction ? liquid + correction->at(x, c) : liquid));
}

TemperatureInputs add_temperature(uncertainty::Inputs& inputs, const std::string& of,
                                  const TemperatureReading& r,
                                  const std::optional<CorrectionInputs>& shared) {
  const auto add = [&](uncertainty::Origin origin, const char* what, uncertainty::Input input) {
    input.thing = r.identity;
    input.name = fmt::format("{} of {}", what, of);
    input.what = what;
    input.of = of;
    return inputs.add(from(origin, std::move(input)));
  };
  const auto indication =
      add(uncertainty::Origin::temperature, "temperature",
          uncertainty::rectangular("", "°C", r.indication_c, r.half_width_c, r.provenance));
  TemperatureInputs t{indication, std::nullopt};
  const double c = estimated(r).celsius();
  if (const double half_width = cooling_half_width_c(c); half_width > 0 && !r.assumed)
    t.cooling =
        add(uncertainty::Origin::cooling, c > 20 ? "cooling" : "warming",
            uncertainty::rectangular(
                "", "°C", 0, half_width,
                "3 % of its distance from a room of 10 °C to 30 °C: engineering judgement"));
  if (r.thermometer && r.correction)
    t.correction = shared ? shared
                          : add_correction(inputs, {r.thermometer->identity, r.thermometer->name},
                                           "°C", *r.correction, uncertainty::Origin::thermometer);
  return t;
}

}  // namespace areo::instruments
