// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/instruments/hydrometer.hpp"

#include <fmt/format.h>

#include <cmath>

#include "areo/core/error.hpp"

namespace areo::instruments {
namespace {

constexpr double usual_divisions = 60;  // on a stem; common practice, no source

double glass_factor(const Hydrometer& h, ModelTemperature t, double gamma) {
  if (!std::isfinite(t.celsius()) || !std::isfinite(gamma))
    throw Error{Errc::domain, "temperature and glass expansion must be finite numbers"};
  return 1 + gamma * (t.point() - h.scale.reference()).value();
}

}  // namespace

std::optional<double> usual_length(const Hydrometer& h) {
  const Hydrometer ordinary = ordinary_hydrometer(h.scale);
  if (h.lo != ordinary.lo || h.hi != ordinary.hi) return std::nullopt;
  return usual_divisions * h.division;
}

Hydrometer ordinary_hydrometer(const physics::Scale& scale) {
  using physics::ScaleKind;
  Hydrometer h;
  h.name = "the hydrometer";
  h.scale = scale;
  const auto graduate = [&](double lo, double hi, double division) {
    h.lo = lo;
    h.hi = hi;
    h.division = division;
    h.length = usual_divisions * division;
  };
  switch (scale.kind) {
    case ScaleKind::specific_gravity:
    case ScaleKind::apparent_gravity: graduate(0.960, 1.200, 0.002); break;
    case ScaleKind::density: graduate(960, 1200, 2); break;
    case ScaleKind::plato:
    case ScaleKind::brix: graduate(-8, 45, 0.5); break;
    case ScaleKind::baume: graduate(-6, 25, 0.2); break;
    case ScaleKind::oechsle: graduate(-40, 200, 2); break;
    case ScaleKind::sugar_concentration: graduate(-80, 500, 5); break;
  }
  return h;
}

void require_on_scale(const Hydrometer& h, double indication) {
  if (!(indication >= h.lo - h.division && indication <= h.hi + h.division))
    throw Error{Errc::domain,
                fmt::format("{} cannot show {}: its scale goes from {} to {}",
                            h.name.empty() ? "the hydrometer" : h.name, number_text(indication),
                            h.lo, h.hi),
                "check the digits, or name the instrument that was used"};
}

Density density_from_indication(const Hydrometer& h, double indication, ModelTemperature t,
                                double gamma) {
  return kg_per_m3(physics::density_from_mark(h.scale, indication).value() /
                   glass_factor(h, t, gamma));
}

double ideal_indication(const Hydrometer& h, Density rho_at_t, ModelTemperature t, double gamma) {
  return physics::mark_from_density(h.scale,
                                    kg_per_m3(rho_at_t.value() * glass_factor(h, t, gamma)));
}

}  // namespace areo::instruments
