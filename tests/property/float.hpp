// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// A hydrometer as a body that floats: its mark follows from a balance of forces of its own, with a
// mass, a stem and a liquid its scale was made for that nobody told areo.
#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "areo/instruments/hydrometer.hpp"
#include "world.hpp"

namespace areo::property {

/// Surface tension of water in mN/m: a straight line through 72.75 at 20 °C and 72.01 at 25 °C
/// [vazquez1995], which the curve of [iapws-r1-76] leaves by 1 mN/m at 80 °C.
inline double water_surface_mn_m(double t_c) { return 72.75 - 0.148 * (t_c - 20); }

/// That of ethanol in water: a parabola through the first three rows of [vazquez1995] at 20 °C,
/// straight lines beyond, in proportion to that of water.
inline double drink_surface_mn_m(double mass_percent, double t_c) {
  constexpr std::array rows{72.75, 56.41, 48.14, 42.72, 38.56, 36.09};
  const double x = mass_percent / 5;
  double at_20 =
      rows[0] * (x - 1) * (x - 2) / 2 - rows[1] * x * (x - 2) + rows[2] * x * (x - 1) / 2;
  if (x > 2) {
    const auto i = std::min(static_cast<std::size_t>(x), rows.size() - 2);
    at_20 = rows.at(i) + (x - static_cast<double>(i)) * (rows.at(i + 1) - rows.at(i));
  }
  return at_20 * water_surface_mn_m(t_c) / water_surface_mn_m(20);
}

class Float {
 public:
  explicit Float(World& world, const instruments::Hydrometer& h)
      : world_{&world},
        diameter_mm_{5 + world.rectangular(1)},
        mass_g_{usual_mass_g(h) + world.rectangular(1) * usual_mass_spread_g(h)},
        made_for_mn_m_{72.75 + world.rectangular(6.2)},
        glass_{h.glass_expansion_per_c +
               world.rectangular(instruments::glass_expansion_half_width_per_c)} {}

  /// The mark where the surface of a clean liquid, or of a drink, cuts the stem.
  [[nodiscard]] double mark_in_clean(const instruments::Hydrometer& h, Density rho,
                                     double t_c) const {
    return mark(h, rho, t_c, water_surface_mn_m(t_c));
  }
  [[nodiscard]] double mark_in_drink(const instruments::Hydrometer& h, Density rho, double t_c,
                                     double mass_percent) const {
    return mark(h, rho, t_c, drink_surface_mn_m(mass_percent, t_c) + world_->rectangular(5));
  }

 private:
  // 25 g, or for fine divisions, of gravity, what makes one of them 1.2 mm high on 5 mm of stem.
  static double usual_mass_g(const instruments::Hydrometer& h) {
    return h.division >= 0.001
               ? 25
               : 1000 * 0.0012 * 0.005 * 0.005 * std::numbers::pi / 4 * 1000 / h.division;
  }
  static double usual_mass_spread_g(const instruments::Hydrometer& h) {
    return h.division >= 0.001 ? 8 : 0.4 * usual_mass_g(h);
  }
  // Buoyancy carries the mass and the pull of the surface; where the mark stands they were those of
  // the liquid that it was made for.
  [[nodiscard]] double mark(const instruments::Hydrometer& h, Density rho, double t_c,
                            double surface_mn_m) const {
    constexpr double gravity = 9.80665;
    const auto carried_g = [&](double mn_m) {
      return mass_g_ + std::numbers::pi * diameter_mm_ * mn_m / gravity / 1000;
    };
    const double immersed_ml = carried_g(surface_mn_m) / rho.value();
    const Density seen = kg_per_m3(carried_g(made_for_mn_m_) / immersed_ml);
    return instruments::ideal_indication(h, seen, celsius_point(t_c), glass_);
  }

  World* world_;
  double diameter_mm_, mass_g_, made_for_mn_m_, glass_;
};

}  // namespace areo::property
