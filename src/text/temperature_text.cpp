// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/text/temperature_text.hpp"

#include <fmt/format.h>

#include <cmath>

#include "areo/core/units.hpp"
#include "areo/text/format.hpp"

namespace areo::text {

std::string temperature_text(double celsius, TemperatureUnit unit) {
  if (unit == TemperatureUnit::fahrenheit)
    return fmt::format("{:g} °F", std::round((celsius * 1.8 + 32) * 100) / 100 + 0.0);
  return celsius_text(celsius);
}

TemperatureUnit reference_unit(const physics::Scale& scale) {
  return scale.sample_c == sixty_fahrenheit_c ? TemperatureUnit::fahrenheit
                                              : TemperatureUnit::celsius;
}

std::string reference_text(const physics::Scale& scale) {
  return temperature_text(scale.reference().celsius(), reference_unit(scale));
}

}  // namespace areo::text
