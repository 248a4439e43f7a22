#include "areo/instruments/hydrometer.hpp"

#include <fmt/format.h>

#include "areo/core/error.hpp"

namespace areo::instruments {
namespace {

double glass_factor(const Hydrometer& h, Temperature t, double gamma) {
  return 1 + gamma * (t - h.scale.reference()).value();
}

}  // namespace

void require_on_scale(const Hydrometer& h, double indication) {
  if (!(indication >= h.lo - h.division && indication <= h.hi + h.division))
    throw Error{Errc::domain,
                fmt::format("{} cannot show {}: its scale goes from {} to {}",
                            h.name.empty() ? "the hydrometer" : h.name, indication, h.lo, h.hi),
                "check the digits, or name the instrument that was used"};
}

Density density_from_indication(const Hydrometer& h, double indication, Temperature t,
                                double gamma) {
  return kg_per_m3(physics::density_from_mark(h.scale, indication).value() /
                   glass_factor(h, t, gamma));
}

double ideal_indication(const Hydrometer& h, Density rho_at_t, Temperature t, double gamma) {
  return physics::mark_from_density(h.scale,
                                    kg_per_m3(rho_at_t.value() * glass_factor(h, t, gamma)));
}

}  // namespace areo::instruments
