// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// The units that people have for temperatures; parse.hpp reads the temperatures themselves.
#include <string_view>

namespace areo::text {

enum class TemperatureUnit { unknown, celsius, fahrenheit, kelvin };
/// "C", "°F", "deg C", "celsius", "K".
[[nodiscard]] TemperatureUnit temperature_unit(std::string_view word);
/// That of "73F"; unknown for a text that is no temperature with its unit.
[[nodiscard]] TemperatureUnit temperature_unit_of(std::string_view text);

}  // namespace areo::text
