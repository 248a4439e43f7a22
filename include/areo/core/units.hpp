// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Dimensioned quantities: temperature as a point and as a difference, and the few SI quantities
// that readings are made of. The only public header that shows Boost.Units.
#include <boost/units/absolute.hpp>
#include <boost/units/base_units/temperature/fahrenheit.hpp>
#include <boost/units/quantity.hpp>
#include <boost/units/systems/si/length.hpp>
#include <boost/units/systems/si/mass.hpp>
#include <boost/units/systems/si/mass_density.hpp>
#include <boost/units/systems/si/pressure.hpp>
#include <boost/units/systems/si/surface_tension.hpp>
#include <boost/units/systems/si/temperature.hpp>
#include <boost/units/systems/si/volume.hpp>
#include <boost/units/systems/temperature/celsius.hpp>
#include <compare>

namespace areo {

namespace bu = boost::units;
using CelsiusUnit = bu::celsius::temperature;
using KelvinUnit = bu::si::temperature;
using FahrenheitUnit = bu::temperature::fahrenheit_base_unit::unit_type;
/// Boost's point on a temperature scale, in unit U.
template <class U>
using AbsoluteIn = bu::quantity<bu::absolute<U>>;

/// A difference of two temperatures; a degree Celsius and a kelvin agree.
using TemperatureDelta = bu::quantity<CelsiusUnit>;

/// A temperature: a point on the scale, not a difference. Points subtract to differences and
/// never add; no plain number converts to one. Stored in °C, as the cited formulas use it: a
/// detour through kelvin would change the last bit of most tenths of a degree.
class Temperature {
 public:
  template <class U>
  constexpr explicit Temperature(const AbsoluteIn<U>& t) : c_{AbsoluteIn<CelsiusUnit>{t}.value()} {}
  /// The value in another unit, e.g. `t.in<KelvinUnit>()`.
  template <class U>
  [[nodiscard]] constexpr double in() const {
    return AbsoluteIn<U>{AbsoluteIn<CelsiusUnit>::from_value(c_)}.value();
  }
  [[nodiscard]] constexpr double celsius() const noexcept { return c_; }
  friend constexpr auto operator<=>(Temperature, Temperature) = default;
  friend constexpr TemperatureDelta operator-(Temperature a, Temperature b) {
    return TemperatureDelta::from_value(a.c_ - b.c_);
  }
  friend constexpr Temperature operator+(Temperature t, TemperatureDelta d) {
    t.c_ += d.value();
    return t;
  }

 private:
  double c_;
};

[[nodiscard]] constexpr Temperature celsius_point(double v) {
  return Temperature{AbsoluteIn<CelsiusUnit>::from_value(v)};
}
[[nodiscard]] constexpr Temperature fahrenheit_point(double v) {
  return Temperature{AbsoluteIn<FahrenheitUnit>::from_value(v)};
}
[[nodiscard]] constexpr Temperature kelvin_point(double v) {
  return Temperature{AbsoluteIn<KelvinUnit>::from_value(v)};
}
[[nodiscard]] constexpr TemperatureDelta celsius_delta(double v) {
  return TemperatureDelta::from_value(v);
}
/// 60 °F = 15.555... °C, the reference temperature of several trade scales.
inline constexpr double sixty_fahrenheit_c = (60.0 - 32.0) / 1.8;

using Density = bu::quantity<bu::si::mass_density>;            // kg/m³
using Mass = bu::quantity<bu::si::mass>;                       // kg
using Volume = bu::quantity<bu::si::volume>;                   // m³
using Pressure = bu::quantity<bu::si::pressure>;               // Pa
using Length = bu::quantity<bu::si::length>;                   // m
using SurfaceTension = bu::quantity<bu::si::surface_tension>;  // N/m

[[nodiscard]] constexpr Density kg_per_m3(double v) { return Density::from_value(v); }
[[nodiscard]] constexpr Mass grams(double v) { return Mass::from_value(v / 1000.0); }
[[nodiscard]] constexpr Mass kilograms(double v) { return Mass::from_value(v); }
[[nodiscard]] constexpr Volume litres(double v) { return Volume::from_value(v / 1000.0); }
[[nodiscard]] constexpr Volume millilitres(double v) { return Volume::from_value(v / 1e6); }
[[nodiscard]] constexpr Pressure pascals(double v) { return Pressure::from_value(v); }
[[nodiscard]] constexpr Length metres(double v) { return Length::from_value(v); }
[[nodiscard]] constexpr SurfaceTension newtons_per_metre(double v) {
  return SurfaceTension::from_value(v);
}

}  // namespace areo
