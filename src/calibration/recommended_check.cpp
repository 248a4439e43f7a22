// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/calibration/recommended_check.hpp"

#include <algorithm>
#include <cmath>

#include "areo/calibration/check.hpp"
#include "areo/calibration/fit.hpp"
#include "areo/core/error.hpp"
#include "areo/physics/mixture.hpp"
#include "areo/physics/water.hpp"

namespace areo::calibration {
namespace {

using instruments::Hydrometer;
using instruments::HydrometerReading;
using instruments::Refractometer;
using instruments::RefractometerReading;
using instruments::RefractometerScale;

constexpr double most_sugar = 0.6;
constexpr double amount_g = 500;

Temperature room() { return celsius_point(20); }

double mark_of(const Hydrometer& h, ExtractFraction w) {
  return instruments::ideal_indication(h, physics::density({w}, room()), room());
}
double mark_of(const Refractometer& r, ExtractFraction w) {
  return instruments::ideal_indication(r, {w}, room());
}

double length_of(const Hydrometer& h) { return h.scale_length(); }
double length_of(const Refractometer& r) { return r.hi - r.lo; }

Density density_at(const Hydrometer& h, double mark) {
  return instruments::density_from_indication(h, mark, room());
}
Density density_at(const Refractometer& r, double mark) {
  const RefractiveIndex n = r.scale == RefractometerScale::brix
                                ? physics::index_from_brix_shown(Brix{mark})
                                : RefractiveIndex{mark};
  return physics::density({physics::extract_from_index(n, room())}, room());
}

template <class Checks, class Reading, class Instrument>
std::optional<RecommendedCheck> planned(const Instrument& instrument) {
  if (!(instrument.division > 0) || !(instrument.lo < instrument.hi))
    throw Error{Errc::domain,
                "a scale needs a division above zero and a lower end below the upper"};
  const double water = mark_of(instrument, ExtractFraction{0});
  const double foot = std::max(instrument.lo, water);
  const double top = std::min(instrument.hi, mark_of(instrument, ExtractFraction{most_sugar}));
  if (!(top - foot > instrument.division)) return std::nullopt;
  RecommendedCheck plan;
  // Water a fraction of a division below the foot is still read there.
  plan.water = water >= instrument.lo - instrument.division / 2;
  Checks checks{instrument};
  if (plan.water) {
    Reading r;
    r.indication = foot;
    checks.add_in_water(r);
  }
  for (const double height : plan.water ? std::vector{0.5, 0.9} : std::vector{0.1, 0.5, 0.9}) {
    Reading r;
    r.indication = foot + height * (top - foot);
    plan.solutions.push_back(
        weigh_in(sugar_solution(1, 1), amount_g, density_at(instrument, r.indication), room()));
    checks.add_in_solution(r, plan.solutions.back());
  }
  plan.correction =
      fit_correction(checks.evaluate(), instrument.division, length_of(instrument)).correction;
  return plan;
}

}  // namespace

std::optional<RecommendedCheck> recommended_check(const Hydrometer& h) {
  return planned<HydrometerChecks, HydrometerReading>(h);
}

std::optional<RecommendedCheck> recommended_check(const Refractometer& r) {
  return planned<RefractometerChecks, RefractometerReading>(r);
}

}  // namespace areo::calibration
