// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Numbers with their units as literals: 1.048_sg, 12.5_plato, 27_degC, 50_g, 0.5_L.
//
//   using namespace areo::literals;
//
// A literal is the double that its decimal digits mean, to the last bit, and is made while the
// program is compiled. It has no sign: a temperature below zero is celsius(-5).
#include <cstdint>

#include "areo/front/scales.hpp"

namespace areo {

namespace detail {

/// What is no plain decimal number of at most 15 digits stops the compilation here.
inline void a_literal_is_a_plain_decimal_of_at_most_15_digits() {}

/// The nearest double: both the digits as an integer and the power of ten are exact, so one
/// division rounds once.
consteval double decimal(const char* text) {
  constexpr int most_digits = 15;
  std::int64_t digits = 0;
  int count = 0;
  bool fraction = false;
  double divisor = 1;
  for (; *text != '\0'; ++text) {
    if (*text == '\'') continue;
    if (*text == '.') {
      fraction = true;
      continue;
    }
    if (*text < '0' || *text > '9') a_literal_is_a_plain_decimal_of_at_most_15_digits();
    if (digits > 0 || *text != '0') ++count;
    if (count > most_digits) a_literal_is_a_plain_decimal_of_at_most_15_digits();
    digits = 10 * digits + (*text - '0');
    if (fraction) divisor *= 10;
  }
  return static_cast<double>(digits) / divisor;
}

}  // namespace detail

inline namespace literals {

consteval Gravity operator""_sg(const char* text) { return Gravity{detail::decimal(text)}; }
consteval Gravity60F operator""_sg60F(const char* text) {
  return Gravity60F{detail::decimal(text)};
}
consteval Density20 operator""_kg_m3(const char* text) { return Density20{detail::decimal(text)}; }
consteval Plato operator""_plato(const char* text) { return Plato{detail::decimal(text)}; }
consteval Brix operator""_brix(const char* text) { return Brix{detail::decimal(text)}; }
consteval Oechsle operator""_oechsle(const char* text) { return Oechsle{detail::decimal(text)}; }
consteval Baume145 operator""_baume(const char* text) { return Baume145{detail::decimal(text)}; }
/// Refractive index at the sodium D line.
consteval RefractiveIndex operator""_nD(const char* text) {
  return RefractiveIndex{detail::decimal(text)};
}
consteval StrengthByVolume operator""_percent_vol(const char* text) {
  return StrengthByVolume{detail::decimal(text)};
}
consteval StrengthByMass operator""_percent_mass(const char* text) {
  return StrengthByMass{detail::decimal(text)};
}
consteval Temperature operator""_degC(const char* text) { return celsius(detail::decimal(text)); }
consteval Temperature operator""_degF(const char* text) {
  return fahrenheit(detail::decimal(text));
}
/// A difference of temperatures, a step of a thermometer's scale or its ±.
consteval TemperatureDelta operator""_K(const char* text) {
  return celsius_delta(detail::decimal(text));
}
consteval Mass operator""_g(const char* text) { return grams(detail::decimal(text)); }
consteval Mass operator""_kg(const char* text) { return kilograms(detail::decimal(text)); }
consteval Volume operator""_L(const char* text) { return litres(detail::decimal(text)); }
consteval Volume operator""_mL(const char* text) { return millilitres(detail::decimal(text)); }

}  // namespace literals
}  // namespace areo
