// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// The words of the front door for marks, strengths and what follows from them: each a type of its
// own (core/scales.hpp), made by a function or a literal (literals.hpp), printed with its unit
// (unit_of.hpp).
#include "areo/core/scales.hpp"
#include "areo/core/units.hpp"
#include "areo/physics/scale.hpp"

namespace areo {

using Gravity = SpecificGravity<Ref20_20>;                        ///< SG 20/20 °C, the usual one
using Gravity60F = SpecificGravity<Ref60F>;                       ///< SG 60/60 °F
using ApparentGravity = ScaleValue<struct ApparentGravityScale>;  ///< SG 20/20 °C of weights in air
using Density20 = ScaleValue<struct Density20Scale>;  ///< kg/m³ of the liquid at 20 °C
using Baume145 = Baume<Modulus145>;                   ///< °Bé with modulus 145, at 60/60 °F

/// How much of the original extract is gone, in percent.
using Attenuation = ScaleValue<struct AttenuationScale>;
/// Energy of a drink, kJ in 100 mL.
using Energy = ScaleValue<struct EnergyScale>;

// Makers. A gravity, a percentage and a temperature are points of their scale; negative ones are
// made here, as a literal knows no sign.
[[nodiscard]] constexpr Gravity gravity(double v) noexcept { return Gravity{v}; }
[[nodiscard]] constexpr Gravity60F gravity_60f(double v) noexcept { return Gravity60F{v}; }
[[nodiscard]] constexpr Density20 density_at_20(double v) noexcept { return Density20{v}; }
[[nodiscard]] constexpr Plato plato(double v) noexcept { return Plato{v}; }
[[nodiscard]] constexpr Brix brix(double v) noexcept { return Brix{v}; }
[[nodiscard]] constexpr Oechsle oechsle(double v) noexcept { return Oechsle{v}; }
[[nodiscard]] constexpr Baume145 baume(double v) noexcept { return Baume145{v}; }
[[nodiscard]] constexpr RefractiveIndex index_d(double v) noexcept { return RefractiveIndex{v}; }
[[nodiscard]] constexpr StrengthByVolume percent_vol(double v) noexcept {
  return StrengthByVolume{v};
}
[[nodiscard]] constexpr StrengthByMass percent_mass(double v) noexcept { return StrengthByMass{v}; }
[[nodiscard]] constexpr Temperature celsius(double v) { return celsius_point(v); }
[[nodiscard]] constexpr Temperature fahrenheit(double v) { return fahrenheit_point(v); }

/// A mark that stands for a density: what hydrometers are made for, and what convert() knows.
template <class Mark>
concept DensityMark = requires {
  physics::scale_of<Mark>::value;
};

namespace physics {
template <>
struct scale_of<ApparentGravity> {
  static constexpr Scale value = apparent_sg_20_20;
};
template <>
struct scale_of<Density20> {
  static constexpr Scale value = density_20;
};
}  // namespace physics

}  // namespace areo
