// SPDX-License-Identifier: GPL-3.0-or-later
// Do stated corrections hold the error of an instrument as often as they claim? Instruments and
// checks as a user would meet them: a scale with an offset and a slope, a stem, a mass and a liquid
// it was made for that nobody knows, tap water, a balance that is not quite straight, a certificate
// whose points err together.
#include <gtest/gtest.h>

#include <cmath>
#include <ostream>
#include <string>

#include "areo/calibration/fit.hpp"
#include "areo/physics/water.hpp"
#include "stem.hpp"

namespace areo::property {
namespace {

using calibration::HydrometerChecks;
using calibration::Water;

// One way to check a stem.
struct Way {
  const char* name;
  void (*check)(World& world, NewStem& stem, HydrometerChecks& checks);
  double least, most;  ///< of a hundred intervals, how many hold at each place
  double steep = 0;    ///< all scales run by so many divisions from end to end; 0 = as they come
};
void PrintTo(const Way& way, std::ostream* out) { *out << way.name; }

void check_in_water(World& world, NewStem& stem, HydrometerChecks& checks, double solids_kg_m3,
                    Water water) {
  const double t = world.uniform(17, 24);
  const Density rho = physics::water_density(celsius_point(t)) + kg_per_m3(solids_kg_m3);
  checks.add_in_water(stem.reads_clean(rho, t), water);
}
void check_in_sugar(World& world, NewStem& stem, HydrometerChecks& checks, double sugar_g,
                    double solids_kg_m3, Water water) {
  const double t = world.uniform(17, 24);
  const auto s = calibration::sugar_solution(sugar_g, 500 - sugar_g);
  checks.add_in_solution(stem.reads_clean(stem.weighed(s, t) + kg_per_m3(solids_kg_m3), t), s,
                         water);
}

void one_check(World& world, NewStem& stem, HydrometerChecks& checks) {
  check_in_water(world, stem, checks, 0, Water::pure);
}
void three_checks(World& world, NewStem& stem, HydrometerChecks& checks) {
  one_check(world, stem, checks);
  for (const double sugar_g : {50.0, 97.0})
    check_in_sugar(world, stem, checks, sugar_g, 0, Water::pure);
}
void in_tap_water(World& world, NewStem& stem, HydrometerChecks& checks) {
  const double solids = world.uniform(0, calibration::most_tap_solids_kg_m3);
  check_in_water(world, stem, checks, solids, Water::tap);
  for (const double sugar_g : {50.0, 97.0})
    check_in_sugar(world, stem, checks, sugar_g, solids, Water::tap);
}
void in_a_water_nobody_named(World& world, NewStem& stem, HydrometerChecks& checks) {
  const double solids = world.uniform(0, calibration::most_tap_solids_kg_m3);
  check_in_water(world, stem, checks, solids, Water::unknown);
  for (const double sugar_g : {50.0, 97.0})
    check_in_sugar(world, stem, checks, sugar_g, solids, Water::unknown);
}
// U = 0.0006, four fifths of it the same for all points.
void certificate(World& world, NewStem& stem, HydrometerChecks& checks) {
  constexpr double u = 0.0003;
  const double common = world.normal(0.8 * u);
  for (const double mark : {0.98, 1.01, 1.05, 1.09, 1.12})
    checks.add_certificate_point(mark, stem.off_at(mark) + common + world.normal(0.6 * u), 2 * u,
                                 2);
}

class CalibrationCoverage : public testing::TestWithParam<Way> {};

// Where the interval is asked: in the middle of the checked range, at its ends, and at the ends of
// the scale.
struct Place {
  const char* name;
  double (*at)(const NewStem& stem, const instruments::Correction& c);
};
constexpr Place places[] = {
    {"middle", [](const NewStem&,
                  const instruments::Correction& c) { return (c.checked_lo + c.checked_hi) / 2; }},
    {"lower end checked",
     [](const NewStem&, const instruments::Correction& c) { return c.checked_lo; }},
    {"upper end checked",
     [](const NewStem&, const instruments::Correction& c) { return c.checked_hi; }},
    {"foot of the scale",
     [](const NewStem& s, const instruments::Correction&) { return s.hydrometer.lo; }},
    {"top of the scale",
     [](const NewStem& s, const instruments::Correction&) { return s.hydrometer.hi; }},
};

TEST_P(CalibrationCoverage, HoldsTheErrorOfTheScale) {
  Draws draws;
  SCOPED_TRACE(draws.trace());
  World world{draws};
  const int n = cases_wanted();
  int held[std::size(places)] = {};
  for (int i = 0; i < n; ++i) {
    NewStem stem{world};
    if (GetParam().steep > 0)
      stem.make_steep(world, world.uniform(0, 1) < 0.5 ? -GetParam().steep : GetParam().steep);
    HydrometerChecks checks{stem.hydrometer};
    GetParam().check(world, stem, checks);
    const auto& h = stem.hydrometer;
    const auto c =
        calibration::fit_correction(checks.evaluate(), h.division, h.scale_length()).correction;
    for (std::size_t k = 0; k < std::size(places); ++k) {
      const double at = places[k].at(stem, c);
      const bool holds = std::abs(c.at(at) - stem.off_at(at)) <= 1.96 * c.uncertainty_at(at);
      held[k] += holds ? 1 : 0;
    }
  }
  for (std::size_t k = 0; k < std::size(places); ++k) {
    const double percent = 100.0 * held[k] / n;
    const double slack = 3 * std::sqrt(95.0 * 5 / n);
    RecordProperty(places[k].name, std::to_string(percent));
    EXPECT_GE(percent, GetParam().least - slack) << places[k].name;
    EXPECT_LE(percent, GetParam().most + slack) << places[k].name;
  }
}
// As they come, 94 to 96 hold in three checks at each of the places, and 94 to 97 where a
// rectangular doubt outweighs the others. Four fifths of a certificate's U common to its points
// leave the fully common one that areo reckons with too wide. A world of scales that all run by a
// whole division from end to end, up or down, is steeper than three of five: there the part that is
// taken of a slope is too small, and 92 hold.
INSTANTIATE_TEST_SUITE_P(Ways, CalibrationCoverage,
                         testing::Values(Way{"one_check", one_check, 94, 97},
                                         Way{"three_checks", three_checks, 94, 96.5},
                                         Way{"in_tap_water", in_tap_water, 94, 96.5},
                                         Way{"water_nobody_named", in_a_water_nobody_named, 94, 97},
                                         Way{"certificate", certificate, 94, 99.5},
                                         Way{"steep_scales", three_checks, 92, 96, 1}),
                         [](const auto& test) { return std::string{test.param.name}; });

}  // namespace
}  // namespace areo::property
