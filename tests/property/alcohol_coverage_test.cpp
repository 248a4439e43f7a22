// SPDX-License-Identifier: GPL-3.0-or-later
// From the checks of a new hydrometer to a corrected reading and to the alcohol of a drink, by the
// law of propagation: the correction that comes out of the checks is used for every reading.
#include <gtest/gtest.h>

#include <cmath>
#include <ostream>
#include <string>

#include "areo/measurement/alcohol.hpp"
#include "areo/physics/scale.hpp"
#include "stem.hpp"
#include "world.hpp"

namespace areo::property {

void PrintTo(const Sort& s, std::ostream* out) { *out << s.name; }

namespace {

// How many of n stated strengths hold the true one.
int strengths_held(World& world, const Sort& sort, int n) {
  int held = 0;
  for (int i = 0; i < n; ++i) {
    NewStem stem{world};
    const measurement::Calibrated calibrated{stem.hydrometer, checked(world, stem)};
    const Ferment f{world, stem, sort};
    const auto v = measurement::alcohol(calibrated, f.now, calibrated, f.first)
                       .result.at("alcohol_percent_vol")
                       .value;
    held += std::abs(v.estimate - f.strength) <= v.expanded() ? 1 : 0;
  }
  return held;
}

class StrengthCoverage : public testing::TestWithParam<Sort> {};

TEST_P(StrengthCoverage, FromTheChecksToTheAlcohol) {
  Draws draws;
  SCOPED_TRACE(draws.trace());
  World world{draws};
  const int n = cases_wanted();
  expect_coverage(strengths_held(world, GetParam(), n), n);
}
INSTANTIATE_TEST_SUITE_P(Ferments, StrengthCoverage,
                         testing::Values(Sort{}, Sort{"sweet", 0.1, 0.4}, Sort{"dry", 0.9, 1}),
                         [](const auto& test) { return std::string{test.param.name}; });

// A world that areo's own figures do not describe: the yields of the beers of [tolman1917] as they
// were found, about their own mean and not about Balling's. Not below 94 % there
// either.
TEST(StrengthCoverageElsewhere, WhereYieldsAreThoseOfTheBeers) {
  Draws draws;
  SCOPED_TRACE(draws.trace());
  World world{draws};
  const int n = cases_wanted();
  const int held = strengths_held(world, {"beers", 0.6, 0.95, 2.099, 0.076}, n);
  RecordProperty("held_percent", std::to_string(100.0 * held / n));
  EXPECT_GE(held, (least - 3 * std::sqrt(0.94 * 0.06 / n)) * n);
}

// How many of n corrected readings of unfermented liquids hold the true gravity.
int corrections_held(World& world, double coldest_c, double warmest_c, int n) {
  int held = 0;
  for (int i = 0; i < n; ++i) {
    NewStem stem{world};
    const measurement::Calibrated calibrated{stem.hydrometer, checked(world, stem)};
    const physics::Liquid liquid{ExtractFraction{world.uniform(0.05, 0.22)}};
    const double t_c = world.uniform(coldest_c, warmest_c);
    const double hot_u = physics::hot_uncertainty_kg_m3_per_c * physics::degrees_hot(t_c);
    const Density rho =
        physics::density(liquid, celsius_point(t_c)) + kg_per_m3(world.normal(hot_u));
    instruments::HydrometerReading reading = stem.reads(rho, t_c, 0);
    reading.temperature.indication_c += world.rectangular(instruments::cooling_half_width_c(t_c));
    const auto& v = measurement::correct(calibrated, reading, {}).at("sg_20_20").value;
    const double truth = physics::mark_from_liquid(physics::sg_20_20, liquid);
    held += std::abs(v.estimate - truth) <= v.expanded() ? 1 : 0;
  }
  return held;
}

TEST(CorrectionCoverage, OfAWarmOrColdReading) {
  Draws draws;
  SCOPED_TRACE(draws.trace());
  World world{draws};
  const int n = cases_wanted();
  expect_coverage(corrections_held(world, 8, 35, n), n);
}

// Straight from the kettle: the formula is known less well there, and the liquid cools between the
// thermometer and the stem.
TEST(CorrectionCoverage, OfAHotReading) {
  Draws draws;
  SCOPED_TRACE(draws.trace());
  World world{draws};
  const int n = cases_wanted();
  expect_coverage(corrections_held(world, 45, 80, n), n);
}

}  // namespace
}  // namespace areo::property
