// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/instruments/stem.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "areo/core/error.hpp"
#include "areo/physics/mixture.hpp"
#include "areo/physics/surface.hpp"

namespace areo::instruments {
namespace {

constexpr double gravity_m_s2 = 9.80665;
constexpr Temperature reference = celsius_point(20);
constexpr Temperature warmest_of_tables = celsius_point(40);

// What a division is in density, in the middle of the scale.
double division_kg_m3(const Hydrometer& h) {
  const double middle = (h.lo + h.hi) / 2;
  return std::abs(physics::density_from_mark(h.scale, middle + h.division / 2).value() -
                  physics::density_from_mark(h.scale, middle - h.division / 2).value());
}

double middle_kg_m3(const Hydrometer& h) {
  return physics::density_from_mark(h.scale, (h.lo + h.hi) / 2).value();
}

double cross_section_m2(Length diameter) {
  return std::numbers::pi / 4 * diameter.value() * diameter.value();
}

// Newtons of a pull of the surface, as the mass that weighs as much.
double pull_kg(Length diameter, const SurfaceTension& surface) {
  return std::numbers::pi * diameter.value() * surface.value() / gravity_m_s2;
}

}  // namespace

Stem stem_of(const Hydrometer& h) {
  constexpr const char* stated = "as stated for the instrument";
  constexpr const char* usual = "usual: engineering judgement";
  constexpr double fine_kg_m3 = 0.9;
  Stem s{{5, 1, usual}, {25, 8, usual}, {}};
  if (division_kg_m3(h) < fine_kg_m3) {
    constexpr double division_mm = 1.2;
    const Length diameter = metres(s.diameter_mm.value / 1000);
    const double mass_g =
        1000 * mass_from_division_height(h, diameter, metres(division_mm / 1000)).value();
    s.mass_g = {mass_g, 0.4 * mass_g, usual};
  }
  if (h.stem_diameter_mm) s.diameter_mm = {*h.stem_diameter_mm, 0.2, stated};
  if (h.mass_g) s.mass_g = {*h.mass_g, 0.5, stated};
  const double water_mn_m = 1000 * physics::water_surface_tension(reference).value();
  s.made_for_mn_m = h.made_for_mn_m ? Known{*h.made_for_mn_m, 2, stated}
                                    : Known{water_mn_m, 6.2, "made for clean water: judgement"};
  return s;
}

double surface_factor(Length diameter, Mass mass, const SurfaceTension& liquid,
                      const SurfaceTension& made_for) {
  return (mass.value() + pull_kg(diameter, liquid)) / (mass.value() + pull_kg(diameter, made_for));
}

SurfaceTension surface_of(EthanolFraction ethanol, ModelTemperature t) {
  const SurfaceTension usual = physics::surface_tension(ethanol, reference);
  if (t.celsius() <= warmest_of_tables.celsius()) return usual;
  return usual + physics::water_surface_tension(t) -
         physics::water_surface_tension(warmest_of_tables);
}

double surface_half_width_mn_m(Temperature t) {
  const SurfaceTension warm = physics::water_surface_tension(std::min(t, warmest_of_tables)) -
                              physics::water_surface_tension(reference);
  return std::hypot(physics::surface_half_width_mn_m, 1000 * warm.value());
}

double usual_indication(const Hydrometer& h, Density rho_at_t, ModelTemperature t,
                        EthanolFraction ethanol) {
  const Stem s = stem_of(h);
  const double factor =
      surface_factor(metres(s.diameter_mm.value / 1000), grams(s.mass_g.value),
                     surface_of(ethanol, t), newtons_per_metre(s.made_for_mn_m.value / 1000));
  return ideal_indication(h, rho_at_t / factor, t);
}

Length division_height(const Hydrometer& h, Length diameter, Mass mass) {
  const double rho = middle_kg_m3(h);
  return metres(division_kg_m3(h) * mass.value() / (rho * rho * cross_section_m2(diameter)));
}

Mass mass_from_division_height(const Hydrometer& h, Length diameter, Length height) {
  const double rho = middle_kg_m3(h);
  return grams(1000 * height.value() * rho * rho * cross_section_m2(diameter) / division_kg_m3(h));
}

Length meniscus_height(Length diameter, const SurfaceTension& surface, Density rho) {
  const double length = std::sqrt(surface.value() / (rho.value() * gravity_m_s2));
  return metres(std::numbers::sqrt2 * length / std::sqrt(1 + 2 * length / diameter.value()));
}

double usual_meniscus_divisions(const Hydrometer& h) {
  const Stem s = stem_of(h);
  const Length diameter = metres(s.diameter_mm.value / 1000);
  return meniscus_height(diameter, physics::water_surface_tension(reference),
                         physics::density({}, reference))
             .value() /
         division_height(h, diameter, grams(s.mass_g.value)).value();
}

}  // namespace areo::instruments
