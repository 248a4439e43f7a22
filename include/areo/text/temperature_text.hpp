// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Temperatures in the unit that somebody is used to, or that an instrument is made for.
#include <string>

#include "areo/physics/scale.hpp"
#include "areo/text/parse_temperature.hpp"

namespace areo::text {

/// For a sentence, to hundredths: "27 °C", "80.6 °F".
/// @param unit  unknown: °C
[[nodiscard]] std::string temperature_text(double celsius, TemperatureUnit unit);

/// The unit of the temperature that the marks of a scale refer to: °F for 60/60 °F.
[[nodiscard]] TemperatureUnit reference_unit(const physics::Scale& scale);
/// "20 °C", "60 °F"
[[nodiscard]] std::string reference_text(const physics::Scale& scale);

}  // namespace areo::text
