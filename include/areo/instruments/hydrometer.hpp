// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// A hydrometer: from the mark at the liquid's surface to the density of the liquid, and back.
#include <optional>
#include <string>

#include "areo/core/identity.hpp"
#include "areo/core/model_temperature.hpp"
#include "areo/core/units.hpp"
#include "areo/physics/scale.hpp"

namespace areo::instruments {

/// Conventional cubic expansion of hydrometer glass per °C [iso1768].
inline constexpr double conventional_glass_expansion_per_c = 25e-6;
/// Half-width of what is known about it, from memory; other glasses (borosilicate) need their own
/// value.
inline constexpr double glass_expansion_half_width_per_c = 2e-6;

/// A hydrometer as it is described in the notebook.
struct Hydrometer {
  std::string name;  ///< for people; may be empty, and two may have the same
  physics::Scale scale = physics::sg_20_20;
  double lo = 0.990, hi = 1.100;  ///< ends of the scale, in its unit
  double division = 0.002;        ///< smallest division
  /// How much of the scale is on the stem, where lo and hi are only what it may show; hi - lo
  /// unless stated.
  std::optional<double> length = std::nullopt;
  double glass_expansion_per_c = conventional_glass_expansion_per_c;
  /// How far the liquid climbs the stem, in units of the scale; without it what water climbs, by
  /// usual_meniscus_divisions(), within 0.4 divisions.
  std::optional<double> meniscus_height = std::nullopt;
  /// Maximum permissible error that a verdict is made against; one division unless stated.
  std::optional<double> tolerance = std::nullopt;
  /// Diameter of the stem and mass of the whole, and the surface tension at 20 °C of the liquid
  /// that the scale was made for; what is not stated is taken as usual (stem_of()).
  std::optional<double> stem_diameter_mm = std::nullopt, mass_g = std::nullopt,
                        made_for_mn_m = std::nullopt;
  /// Which one it is: a copy is the same instrument, one made anew another, whatever its name.
  Identity identity{};

  [[nodiscard]] double maximum_permissible_error() const { return tolerance.value_or(division); }
  [[nodiscard]] double scale_length() const { return length.value_or(hi - lo); }
  friend bool operator==(const Hydrometer&, const Hydrometer&) = default;
};

/// How much of the scale is on a stem whose ends are those of ordinary_hydrometer(): nobody stated
/// them, and no stem is that long. Nothing for any other.
[[nodiscard]] std::optional<double> usual_length(const Hydrometer& h);

/// A hydrometer of which nothing is known but its scale: the wide range and the coarse division of
/// an ordinary kitchen instrument (common practice, no source). Another instrument at each call.
[[nodiscard]] Hydrometer ordinary_hydrometer(const physics::Scale& scale);

/// @throws Error{domain} naming the scale's ends if the indication is more than one division
///         outside them, or NaN
void require_on_scale(const Hydrometer& h, double indication);

/// Density of the liquid at its own temperature t. The glass has expanded since t_ref, so the mark
/// stands for rho_R / (1 + gamma (t - t_ref)) (exact form; reading level with the liquid, after all
/// corrections of the scale).
/// @param gamma cubic expansion of the glass per °C
/// @source      [iso1768] for gamma; Archimedes
[[nodiscard]] Density density_from_indication(const Hydrometer& h, double indication,
                                              ModelTemperature t, double gamma);
[[nodiscard]] inline Density density_from_indication(const Hydrometer& h, double indication,
                                                     ModelTemperature t) {
  return density_from_indication(h, indication, t, h.glass_expansion_per_c);
}

/// What an error-free instrument shows in a liquid of density rho at t; inverse of the above.
/// In water a 20/4 or a 60/60 °F instrument does not show 1.000.
/// @check water at 20 °C: SG 20/20 -> 1.00000; SG 60/60 °F -> 0.99930; SG 20/4 -> 0.99823
[[nodiscard]] double ideal_indication(const Hydrometer& h, Density rho_at_t, ModelTemperature t,
                                      double gamma);
[[nodiscard]] inline double ideal_indication(const Hydrometer& h, Density rho_at_t,
                                             ModelTemperature t) {
  return ideal_indication(h, rho_at_t, t, h.glass_expansion_per_c);
}

}  // namespace areo::instruments
