// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// What a mark on a scale means: the density of the liquid that it stands for, at the scale's
// reference temperature. Typed for programs, and as a value for instruments and user input.
#include <string>
#include <string_view>

#include "areo/core/scales.hpp"
#include "areo/physics/liquid.hpp"

namespace areo::physics {

/// Kinds of scale that hydrometers carry or that people convert between.
enum class ScaleKind {
  specific_gravity,     ///< true density over the density of water
  apparent_gravity,     ///< the same for weights in air of 1.2 kg/m³ [nbsc440]
  density,              ///< kg/m³
  plato,                ///< percent sucrose by mass
  brix,                 ///< percent sucrose by mass
  baume,                ///< Bé = m - m / SG, for liquids heavier than water
  oechsle,              ///< 1000 (SG - 1)
  sugar_concentration,  ///< grams of sugar per litre
};

/// A scale with its reference temperatures. Build it with the makers below.
struct Scale {
  ScaleKind kind;
  double sample_c;     ///< temperature of the liquid for which the mark is true, °C
  double water_c = 0;  ///< temperature of the water of a specific gravity, °C; else unused
  double modulus = 0;  ///< of a Baumé scale; else unused
  friend constexpr bool operator==(const Scale&, const Scale&) = default;

  [[nodiscard]] constexpr Temperature reference() const { return celsius_point(sample_c); }
};

template <class Ref>
[[nodiscard]] constexpr Scale specific_gravity_scale() {
  return {ScaleKind::specific_gravity, Ref::sample_c, Ref::water_c};
}
template <class Modulus>
[[nodiscard]] constexpr Scale baume_scale() {
  return {ScaleKind::baume, Modulus::Ref::sample_c, Modulus::Ref::water_c, Modulus::modulus};
}
inline constexpr Scale sg_20_20 = specific_gravity_scale<Ref20_20>();
inline constexpr Scale apparent_sg_20_20{ScaleKind::apparent_gravity, 20, 20};
inline constexpr Scale density_20{ScaleKind::density, 20};
inline constexpr Scale plato_20{ScaleKind::plato, 20};
inline constexpr Scale brix_20{ScaleKind::brix, 20};
inline constexpr Scale oechsle_20{ScaleKind::oechsle, 20, 20};
inline constexpr Scale sugar_g_l_20{ScaleKind::sugar_concentration, 20};

/// The density, at the scale's reference temperature, that a mark stands for.
/// Plato, Brix and g/L marks are true for sucrose solutions by physics::density().
/// @param mark  value on the scale, finite
/// @throws      Error{domain} if the mark is outside what the scale can show
[[nodiscard]] Density density_from_mark(const Scale& scale, double mark);
/// Inverse of density_from_mark(), to 1e-12 relative.
[[nodiscard]] double mark_from_density(const Scale& scale, Density rho_at_reference);
/// What `scale` shows for a liquid of this composition.
[[nodiscard]] double mark_from_liquid(const Scale& scale, const Liquid& liquid);
/// The unfermented liquid for which `scale` shows `mark`.
[[nodiscard]] Liquid liquid_from_mark(const Scale& scale, double mark);

/// The same for typed scales, e.g. `density_from(Plato{12.5})`, `mark_as<Oechsle>(rho)`.
template <class R>
struct scale_of;  // Scale of a Reading type
template <class Ref>
struct scale_of<SpecificGravity<Ref>> {
  static constexpr Scale value = specific_gravity_scale<Ref>();
};
template <class Modulus>
struct scale_of<Baume<Modulus>> {
  static constexpr Scale value = baume_scale<Modulus>();
};
template <>
struct scale_of<Plato> {
  static constexpr Scale value = plato_20;
};
template <>
struct scale_of<Brix> {
  static constexpr Scale value = brix_20;
};
template <>
struct scale_of<Oechsle> {
  static constexpr Scale value = oechsle_20;
};
template <>
struct scale_of<MassConcentration> {
  static constexpr Scale value = sugar_g_l_20;
};
/// @return kg/m³ at the reference temperature of the reading's scale
template <class R>
[[nodiscard]] Density density_from(R reading) {
  return density_from_mark(scale_of<R>::value, reading.value());
}
template <class R>
[[nodiscard]] R reading_from(Density rho_at_reference) {
  return R{mark_from_density(scale_of<R>::value, rho_at_reference)};
}
/// From one typed scale to another, for an unfermented liquid: `convert<Plato>(Oechsle{48})`.
template <class To, class From>
[[nodiscard]] To convert(From reading) {
  return To{mark_from_liquid(scale_of<To>::value,
                             liquid_from_mark(scale_of<From>::value, reading.value()))};
}

}  // namespace areo::physics
