// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Dimensionless scales, each its own type: 12.5 °P, 12.5 °Bx and SG 1.0505 can neither be mixed
// nor mistaken for a plain number. What a scale *means* (its density) is in physics/scale.hpp.
#include <compare>

#include "areo/core/units.hpp"

namespace areo {

/// A difference of two readings on one scale. Differences add, subtract and scale; the ratio of two
/// is a number.
template <class Scale>
struct Delta {
  double value;
  friend constexpr auto operator<=>(Delta, Delta) = default;
  friend constexpr Delta operator-(Delta d) noexcept { return {-d.value}; }
  friend constexpr Delta operator+(Delta a, Delta b) noexcept { return {a.value + b.value}; }
  friend constexpr Delta operator-(Delta a, Delta b) noexcept { return {a.value - b.value}; }
  friend constexpr Delta operator*(double factor, Delta d) noexcept { return {factor * d.value}; }
  friend constexpr Delta operator/(Delta d, double divisor) noexcept { return {d.value / divisor}; }
  friend constexpr double operator/(Delta a, Delta b) noexcept { return a.value / b.value; }
};

/// A point on a dimensionless scale. Two readings subtract to a Delta; a Delta can be added to a
/// reading; nothing else compiles, in particular no sum, product or conversion to `double`.
template <class Scale>
class ScaleValue {
 public:
  constexpr explicit ScaleValue(double v) noexcept : v_{v} {}
  [[nodiscard]] constexpr double value() const noexcept { return v_; }
  friend constexpr auto operator<=>(ScaleValue, ScaleValue) = default;
  friend constexpr Delta<Scale> operator-(ScaleValue a, ScaleValue b) noexcept {
    return {a.v_ - b.v_};
  }
  friend constexpr ScaleValue operator+(ScaleValue a, Delta<Scale> d) noexcept {
    return ScaleValue{a.v_ + d.value};
  }

 private:
  double v_;
};

/// Reference temperatures of a specific gravity: of the sample, and of the water it is divided by.
struct Ref20_20 {
  static constexpr double sample_c = 20.0, water_c = 20.0;
};
struct Ref15_15 {
  static constexpr double sample_c = 15.0, water_c = 15.0;
};
struct Ref60F {
  static constexpr double sample_c = sixty_fahrenheit_c, water_c = sixty_fahrenheit_c;
};
struct Ref20_4 {
  static constexpr double sample_c = 20.0, water_c = 4.0;
};
template <class Ref>
struct SgScale;
/// Specific gravity: true density of the sample over true density of water, each at its reference
/// temperature. SG 20/20 °C and SG 60/60 °F are different types.
template <class Ref>
using SpecificGravity = ScaleValue<SgScale<Ref>>;

/// Degrees Baumé for liquids heavier than water, Bé = m - m / SG. Modulus and reference
/// temperature belong together: 145 at 60/60 °F [nbsc440, gnu-units], 144.3 at 15/15 °C [rgbl1907].
struct Modulus145 {
  static constexpr double modulus = 145.0;
  using Ref = Ref60F;
};
struct Modulus144_3 {
  static constexpr double modulus = 144.3;
  using Ref = Ref15_15;
};
template <class Modulus>
struct BaumeScale;
template <class Modulus>
using Baume = ScaleValue<BaumeScale<Modulus>>;

using Plato = ScaleValue<struct PlatoScale>;      ///< % sucrose by mass, the brewer's word
using Brix = ScaleValue<struct BrixScale>;        ///< % sucrose by mass, the sugar maker's word
using Oechsle = ScaleValue<struct OechsleScale>;  ///< 1000 (SG 20/20 - 1)
/// Refractive index against air of 20 °C at the sodium D line, 589.3 nm.
using RefractiveIndex = ScaleValue<struct RefractiveIndexScale>;
/// Grams of extract in a litre of liquid at 20 °C.
using MassConcentration = ScaleValue<struct MassConcentrationScale>;
/// Alcoholic strength by volume at 20 °C, in percent [oimlr22].
using StrengthByVolume = ScaleValue<struct StrengthByVolumeScale>;
/// Alcoholic strength by mass, in percent [oimlr22].
using StrengthByMass = ScaleValue<struct StrengthByMassScale>;

using ExtractFraction = ScaleValue<struct ExtractFractionScale>;  ///< g extract (as sucrose) per g
using EthanolFraction = ScaleValue<struct EthanolFractionScale>;  ///< g ethanol per g
using SaltFraction = ScaleValue<struct SaltFractionScale>;        ///< g sodium chloride per g

/// Plato and Brix meet only here: both are percent sucrose by mass.
[[nodiscard]] constexpr ExtractFraction extract_fraction(Plato p) noexcept {
  return ExtractFraction{p.value() / 100};
}
[[nodiscard]] constexpr ExtractFraction extract_fraction(Brix b) noexcept {
  return ExtractFraction{b.value() / 100};
}
[[nodiscard]] constexpr Plato plato(ExtractFraction w) noexcept { return Plato{100 * w.value()}; }
[[nodiscard]] constexpr Brix brix(ExtractFraction w) noexcept { return Brix{100 * w.value()}; }

}  // namespace areo
