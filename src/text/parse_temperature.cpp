// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/text/parse_temperature.hpp"

#include <fmt/format.h>

#include <cctype>
#include <string>

#include "areo/core/error.hpp"
#include "areo/core/units.hpp"
#include "areo/physics/mixture.hpp"
#include "areo/text/parse.hpp"
#include "characters.hpp"

namespace areo::text {
namespace {

double celsius_from(double value, TemperatureUnit unit) {
  switch (unit) {
    case TemperatureUnit::fahrenheit: return fahrenheit_point(value).celsius();
    case TemperatureUnit::kelvin: return kelvin_point(value).celsius();
    default: return value;
  }
}

double from_celsius(double celsius, TemperatureUnit unit) {
  switch (unit) {
    case TemperatureUnit::fahrenheit: return celsius * 1.8 + 32;
    case TemperatureUnit::kelvin: return celsius + 273.15;
    default: return celsius;
  }
}

// "27°" lacks its unit as "27" does.
bool is_only_a_sign(std::string_view unit) {
  return unit.empty() || unit == "°" || unit == "º" || unit == "deg" || unit == "degrees";
}

}  // namespace

TemperatureUnit temperature_unit(std::string_view word) {
  std::string unit;
  for (const char c : word)
    if (c != ' ' && c != '\t' && c != '.')
      unit += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  for (const std::string_view degree : {"°", "º", "\xB0", "degrees", "degree", "deg"})
    if (unit.starts_with(degree)) {
      unit.erase(0, degree.size());
      break;
    }
  if (unit == "c" || unit == "celsius" || unit == "centigrade") return TemperatureUnit::celsius;
  if (unit == "f" || unit == "fahrenheit") return TemperatureUnit::fahrenheit;
  return unit == "k" || unit == "kelvin" ? TemperatureUnit::kelvin : TemperatureUnit::unknown;
}

TemperatureUnit temperature_unit_of(std::string_view text) {
  try {
    return temperature_unit(number_with_unit(text, "a temperature").unit);
  } catch (const ParseError&) {
    return TemperatureUnit::unknown;
  }
}

double celsius_from_text(std::string_view text) {
  const TypedNumber n = number_with_unit(text, "a temperature");
  const TemperatureUnit unit = temperature_unit(n.unit);
  if (unit != TemperatureUnit::unknown) return celsius_from(n.value, unit);
  if (is_only_a_sign(n.unit))
    throw ParseError{"a temperature needs its unit", std::string{text}, 0, text.size(),
                     fmt::format("{0}F or {0}C?", trimmed(text))};
  throw ParseError{fmt::format("'{}' is not a unit of temperature", n.unit), std::string{text},
                   n.unit_position, n.unit.size(), "write 20C, 68F or 293K"};
}

double liquid_celsius_from_text(std::string_view text) {
  const double c = celsius_from_text(text);
  const Range& range = physics::mixture_temperature_range;
  if (range.contains(c)) return c;
  const std::string typed = number_with_unit(text, "a temperature").unit;
  const TemperatureUnit unit = temperature_unit(typed);
  throw Error{Errc::domain,
              fmt::format("the density of a liquid at {} is not known: the formulas go from "
                          "{:g}{} to {:g}{} [{}]",
                          trimmed(text), from_celsius(range.lo, unit), typed,
                          from_celsius(range.hi, unit), typed, range.source),
              std::string{range.hint}};
}

double sample_celsius_from_text(std::string_view text, bool original) {
  const double c = liquid_celsius_from_text(text);
  if (!original) physics::require_drink_temperature(celsius_point(c));
  return c;
}

double celsius_half_width(std::string_view text) {
  const TypedNumber n = number_with_unit(text, "a temperature");
  return temperature_unit(n.unit) == TemperatureUnit::fahrenheit ? n.half_width / 1.8
                                                                 : n.half_width;
}

}  // namespace areo::text
