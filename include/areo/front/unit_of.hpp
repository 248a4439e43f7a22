// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// How a type that bears a unit is a number: what uncertain values are reckoned in and printed with.
#include <ostream>
#include <string>
#include <type_traits>
#include <utility>

#include "areo/front/scales.hpp"

namespace areo {

/// Of a type T: `number(T)` in the unit `symbol()`, and `of(double)` back. `number` is linear, so
/// that the number of a difference is the difference of the numbers. A program may specialise it
/// for a type of its own and have Uncertain<T> of it.
template <class T>
struct UnitOf;

/// What the difference of two T is: a Delta of two readings, a mass of two masses.
template <class T>
using DifferenceOf = decltype(std::declval<const T&>() - std::declval<const T&>());

namespace detail {
/// Symbol of a scale that stands for a density, as physics::scale_unit() has it.
[[nodiscard]] std::string symbol_of(const physics::Scale& scale);

template <class Mark>
struct SymbolOf {
  static std::string symbol() {
    if constexpr (DensityMark<Mark>)
      return symbol_of(physics::scale_of<Mark>::value);
    else
      return {};
  }
};
template <>
struct SymbolOf<StrengthByVolume> {
  static std::string symbol() { return "% vol"; }
};
template <>
struct SymbolOf<StrengthByMass> {
  static std::string symbol() { return "% mass"; }
};
template <>
struct SymbolOf<Attenuation> {
  static std::string symbol() { return "%"; }
};
template <>
struct SymbolOf<Energy> {
  static std::string symbol() { return "kJ/100 mL"; }
};
}  // namespace detail

template <class Scale>
struct UnitOf<ScaleValue<Scale>> : detail::SymbolOf<ScaleValue<Scale>> {
  static constexpr double number(ScaleValue<Scale> v) noexcept { return v.value(); }
  static constexpr ScaleValue<Scale> of(double v) noexcept { return ScaleValue<Scale>{v}; }
};
template <class Scale>
struct UnitOf<Delta<Scale>> : detail::SymbolOf<ScaleValue<Scale>> {
  static constexpr double number(Delta<Scale> v) noexcept { return v.value; }
  static constexpr Delta<Scale> of(double v) noexcept { return {v}; }
};
template <>
struct UnitOf<double> {
  static constexpr double number(double v) noexcept { return v; }
  static constexpr double of(double v) noexcept { return v; }
  static std::string symbol() { return {}; }
};
template <>
struct UnitOf<Temperature> {
  static constexpr double number(Temperature v) noexcept { return v.celsius(); }
  static constexpr Temperature of(double v) { return celsius(v); }
  static std::string symbol() { return "°C"; }
};
template <>
struct UnitOf<TemperatureDelta> {
  static constexpr double number(const TemperatureDelta& v) { return v.value(); }
  static constexpr TemperatureDelta of(double v) { return celsius_delta(v); }
  static std::string symbol() { return "°C"; }
};
template <>
struct UnitOf<Mass> {
  static constexpr double number(const Mass& v) { return v.value() * 1000; }
  static constexpr Mass of(double v) { return grams(v); }
  static std::string symbol() { return "g"; }
};
template <>
struct UnitOf<Volume> {
  static constexpr double number(const Volume& v) { return v.value() * 1000; }
  static constexpr Volume of(double v) { return litres(v); }
  static std::string symbol() { return "L"; }
};
template <>
struct UnitOf<Density> {
  static constexpr double number(const Density& v) { return v.value(); }
  static constexpr Density of(double v) { return kg_per_m3(v); }
  static std::string symbol() { return "kg/m³"; }
};
template <>
struct UnitOf<Pressure> {
  static constexpr double number(const Pressure& v) { return v.value() / 1e5; }
  static constexpr Pressure of(double v) { return pascals(v * 1e5); }
  static std::string symbol() { return "bar"; }
};

/// The number of a value in its usual unit: grams, litres, °C, the number on its scale.
template <class T>
[[nodiscard]] constexpr double number(const T& v) {
  return UnitOf<T>::number(v);
}

namespace detail {
template <class T>
std::ostream& print(std::ostream& out, const T& v) {
  out << number(v);
  const std::string symbol = UnitOf<T>::symbol();
  return symbol.empty() ? out : out << ' ' << symbol;
}
}  // namespace detail

/// The number, as the stream is set to print it, and the unit: "12.5 °P", "27 °C".
template <class Scale>
std::ostream& operator<<(std::ostream& out, ScaleValue<Scale> v) {
  return detail::print(out, v);
}
template <class Scale>
std::ostream& operator<<(std::ostream& out, Delta<Scale> v) {
  return detail::print(out, v);
}
inline std::ostream& operator<<(std::ostream& out, Temperature v) { return detail::print(out, v); }

}  // namespace areo
