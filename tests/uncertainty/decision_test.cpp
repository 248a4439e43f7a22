// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/uncertainty/decision.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <vector>

#include "areo/core/error.hpp"
#include "areo/uncertainty/monte_carlo.hpp"

namespace areo::uncertainty {
namespace {

constexpr double nan = std::numeric_limits<double>::quiet_NaN();
constexpr double inf = std::numeric_limits<double>::infinity();

// An estimate below the limit is not enough: Φ(1.25) = 0.894, from a table of the normal.
TEST(Decide, TheEstimateAloneDoesNotDecide) {
  const Decision d = decide({0.45, 0.04}, 0.50);
  EXPECT_NEAR(d.probability_below, 0.894, 0.0005);
  EXPECT_EQ(d.side, Side::cannot_tell);
  EXPECT_EQ(decide({0.45, 0.04}, 0.50, 0.89).side, Side::below);
}

// 1.645 u at 95 %: the verdict turns at the guard band, on both sides.
TEST(Decide, AtTheGuardBand) {
  const Value unit{10, 1};
  EXPECT_NEAR(guard_band(unit), 1.645, 0.0005);
  EXPECT_EQ(decide({8.35, 1}, 10).side, Side::below);
  EXPECT_EQ(decide({8.36, 1}, 10).side, Side::cannot_tell);
  EXPECT_EQ(decide({10, 1}, 10).side, Side::cannot_tell);
  EXPECT_EQ(decide({11.64, 1}, 10).side, Side::cannot_tell);
  EXPECT_EQ(decide({11.65, 1}, 10).side, Side::above);
  const Decision d = decide(unit, 12);
  EXPECT_NEAR(d.bounds.lower, 8.355, 0.0005);
  EXPECT_NEAR(d.bounds.upper, 11.645, 0.0005);
}

// [ilac-g8]: risk Φ(-2 r) of an estimate at limit - r U with U = 2 u.
TEST(Decide, RiskAtTheEdgeOfGuardBands) {
  const auto risk = [](double r) {
    return 1 - probability_below(Value{10 - 2 * r * 0.3, 0.3}, 10);
  };
  EXPECT_NEAR(risk(0), 0.50, 1e-12);
  EXPECT_NEAR(risk(0.5), 0.159, 0.0005);
  EXPECT_NEAR(risk(0.83), 0.0485, 0.00005);
  EXPECT_NEAR(risk(1), 0.02275, 0.000005);
  EXPECT_NEAR(risk(1.5), 0.00135, 0.000005);
  EXPECT_NEAR(guard_band({0, 0.3}, 0.97725), 2 * 0.3, 0.0001);
}

// One-sided 95 % points of Student's t, [gum] table G.2 at 90 %: 2.13 for 4 degrees of freedom; 4.9
// count as 4.
TEST(Decide, FewDegreesOfFreedomWidenTheBand) {
  EXPECT_NEAR(guard_band({0, 1, 4}), 2.13, 0.005);
  EXPECT_EQ(guard_band({0, 1, 4.9}), guard_band({0, 1, 4}));
  EXPECT_EQ(decide({8.0, 1}, 10).side, Side::below);
  EXPECT_EQ(decide({8.0, 1, 4}, 10).side, Side::cannot_tell);
  EXPECT_NEAR(probability_below(Value{10 - 2.132, 1, 4}, 10), 0.95, 0.00005);
}

std::vector<double> steps(int n) {
  std::vector<double> v;
  for (int i = 1; i <= n; ++i) v.push_back(static_cast<double>(i) / n);
  return v;
}

// 10 000 values at 0.0001 .. 1: the fraction below x is x. Two standard deviations of a count at
// 0.95 are 0.0044.
TEST(Decide, FromASample) {
  const auto v = steps(10'000);
  EXPECT_DOUBLE_EQ(probability_below(v, 0.25), 0.25);
  EXPECT_EQ(probability_below(v, 2), 1);
  EXPECT_EQ(probability_below(v, 0), 0);
  EXPECT_EQ(decide(v, 0.9600).side, Side::below);
  EXPECT_EQ(decide(v, 0.9530).side, Side::cannot_tell);
  EXPECT_EQ(decide(v, 0.0470).side, Side::cannot_tell);
  EXPECT_EQ(decide(v, 0.0400).side, Side::above);
  EXPECT_EQ(decide(v, 2).side, Side::below);
  EXPECT_EQ(decide(v, 0).side, Side::above);
  // 0.9542 less two standard deviations of a count, 2 √(0.9542 · 0.0458 / 10 000), is 0.95.
  EXPECT_DOUBLE_EQ(bounds(v).lower, 0.0459);
  EXPECT_DOUBLE_EQ(bounds(v).upper, 0.9542);
}

// What lies below zero is cut off: by hand from a table of the normal. For an estimate of zero half
// is left, so Φ(1.960) = 0.975 leaves 5 % of it; for -1 there is Φ(-1) = 0.1587 left, and
// Φ(-2.412) = 0.00793 is 5 % of that.
TEST(NearZero, WhatIsBelowZeroIsCutOff) {
  EXPECT_NEAR(bounds(Value{0, 1}).upper, 1.960, 0.0005);
  EXPECT_NEAR(bounds(Value{-1, 1}).upper, 1.412, 0.0005);
  EXPECT_NEAR(probability_below(Value{0, 1}, 0.5), (0.69146 - 0.5) / 0.5, 0.00002);
  EXPECT_NEAR(probability_below(Value{-1, 1}, 1), 1 - 0.02275 / 0.15866, 0.0001);
  EXPECT_EQ(probability_below(Value{0, 1}, 0), 0);
  EXPECT_EQ(probability_below(Value{0, 1}, -1), 0);
  EXPECT_EQ(bounds(Value{1, 1}).lower, 0);
  EXPECT_NEAR(bounds(Value{2, 1}).lower, 0.355, 0.0005);
}

// The measurement alone says 0.05 - 1.3 u < 0.05 with 99.4 %; a limit of half its u is not for it.
TEST(NearZero, AnEstimateBelowZeroIsNoReasonToBeSure) {
  const Decision d = decide({-0.17, 0.087}, 0.05);
  EXPECT_EQ(d.side, Side::cannot_tell);
  EXPECT_LT(d.probability_below, 0.80);
  EXPECT_EQ(decide({-0.17, 0.087}, 0.12).side, Side::below);
}

// With zero as a wall there is hardly room below a small limit: 98 % lie above 0.02 whatever was
// read, and the reading says nothing.
TEST(NearZero, AboveTakesMoreThanLittleRoomBelow) {
  const Decision d = decide({0.5, 1}, 0.02);
  EXPECT_LT(d.probability_below, 0.02);
  EXPECT_EQ(d.side, Side::cannot_tell);
  EXPECT_EQ(decide({1.67, 1}, 0.02).side, Side::above);
}

// A thousand of the distributions with one to infinitely many degrees of freedom: a verdict is
// where the bounds are, the bound is where the probability is the level, and neither is ever less
// strict than the measurement alone.
TEST(NearZero, VerdictBoundAndProbabilityAreOne) {
  for (const double freedom : {1.0, 2.0, 5.0, 30.0, 1e4, 1e9, inf})
    for (double y = -8; y <= 8; y += 0.37)
      for (const double level : {0.51, 0.8, 0.95, 0.975, 0.999}) {
        SCOPED_TRACE(testing::Message() << y << " u, " << freedom << ", " << level);
        const Value v{y * 0.1, 0.1, freedom};
        const Bounds b = bounds(v, level);
        ASSERT_GT(b.upper, 0);
        ASSERT_GE(b.lower, 0);
        ASSERT_LT(b.lower, b.upper);
        EXPECT_NEAR(probability_below(v, b.upper), level, 1e-6);
        EXPECT_GE(b.upper, v.estimate + guard_band(v, level) - 1e-9);
        const double step = 1e-6 * b.upper;
        EXPECT_EQ(decide(v, b.upper + step, level).side, Side::below);
        EXPECT_NE(decide(v, b.upper - step, level).side, Side::below);
        if (b.lower > 0) {
          EXPECT_EQ(decide(v, b.lower - 1e-9, level).side, Side::above);
          EXPECT_GE(1 - probability_below(v, b.lower), level - 1e-9);
        }
        EXPECT_NE(decide(v, b.lower, level).side, Side::above);
      }
}

// Far below zero, at y = -8 u, the part that is left goes down about as exp(-8 z / u), and a little
// faster.
TEST(NearZero, FarBelowZeroKeepsItsDigits) {
  const Bounds b = bounds(Value{-8, 1});
  EXPECT_NEAR(b.upper, -std::log(0.05) / 8, 0.02);
  EXPECT_NEAR(probability_below(Value{-8, 1}, b.upper), 0.95, 1e-9);
  EXPECT_GT(bounds(Value{-30, 1}).upper, 0.09);
  // Fewer degrees of freedom have longer tails.
  EXPECT_GT(bounds(Value{-8, 1, 3}).upper, 5 * b.upper);
  EXPECT_THROW((void)bounds(Value{-60, 1}), Error);
  EXPECT_THROW((void)probability_below(Value{-60, 1}, 1), Error);
}

// -0.5 .. 0.5 evenly: from zero on it is 0 .. 0.5.
TEST(NearZero, OfASampleWhatIsFromZeroOnCounts) {
  std::vector<double> v;
  for (int i = -10'000; i <= 10'000; ++i) v.push_back(i / 20'000.0);
  EXPECT_NEAR(probability_below(v, 0.25), 0.5, 0.0001);
  EXPECT_NEAR(bounds(v).upper, 0.9542 / 2, 0.0001);
  EXPECT_EQ(bounds(v).lower, 0);
  EXPECT_EQ(decide(v, 0.478).side, Side::below);
  EXPECT_EQ(decide(v, 0.476).side, Side::cannot_tell) << "too near for so many";
  EXPECT_EQ(decide(v, 0.01).side, Side::cannot_tell) << "98 % likely above, but half of it is not";
  // 2000 from zero on, which is half of them, and a quarter more in case.
  EXPECT_NEAR(static_cast<double>(trials_for_bounds(Value{0, 1})), 1.25 * 4000, 1);
  const std::vector<double> negative(10'000, -1.0);
  EXPECT_THROW((void)bounds(negative), Error);
  EXPECT_THROW((void)probability_below(negative, 1), Error);
  std::vector<double> few = negative;
  few.resize(11'999, 1.0);
  EXPECT_THROW((void)bounds(few), Error);
  few.push_back(1.0);
  EXPECT_NO_THROW((void)bounds(few));
}

// One rectangular input of ± 1: the law of propagation leaves a tail that is not there.
TEST(Decide, SampledTailsCount) {
  Inputs in;
  const InputRef a = in.add(rectangular("a", "", 10, 1, ""));
  const Model model = [&](const Point& x) { return std::vector{x[a]}; };
  const auto sampled = monte_carlo(in, model, {.digits = 1, .keep = {0}}).outputs[0];
  EXPECT_EQ(decide(propagate(in, model).values[0], 10.92).side, Side::cannot_tell);
  EXPECT_EQ(decide(sampled.sample, 10.92).side, Side::below);
}

TEST(Decide, RefusesWhatItCannotJudge) {
  const Value v{1, 1};
  EXPECT_THROW((void)decide({1, 0}, 2), Error);
  EXPECT_THROW((void)decide({1, -1}, 2), Error);
  EXPECT_THROW((void)decide({nan, 1}, 2), Error);
  EXPECT_THROW((void)decide({1, nan}, 2), Error);
  EXPECT_THROW((void)decide({1, 1, nan}, 2), Error);
  EXPECT_THROW((void)decide(v, nan), Error);
  EXPECT_THROW((void)decide(v, inf), Error);
  EXPECT_THROW((void)decide(v, 2, 0.5), Error);
  EXPECT_THROW((void)decide(v, 2, 1), Error);
  EXPECT_THROW((void)decide(v, 2, nan), Error);
  EXPECT_THROW((void)guard_band(v, 0.4), Error);
  EXPECT_THROW((void)bounds(Value{0, 0}), Error);
  EXPECT_THROW((void)bounds(Value{nan, 1}), Error);
  EXPECT_THROW((void)bounds(Value{1, inf}), Error);
  EXPECT_THROW((void)bounds(Value{-inf, 1}), Error);
  EXPECT_THROW((void)bounds(v, 0.5), Error);
  EXPECT_THROW((void)probability_below(Value{0, 0}, 1), Error);
  EXPECT_NO_THROW((void)decide(steps(2000), 0.5));
  EXPECT_THROW((void)decide(steps(1999), 0.5), Error);
  EXPECT_THROW((void)probability_below(std::vector{2.0, 1.0}, 0), Error);
  EXPECT_THROW((void)probability_below(std::vector{1.0, nan}, 0), Error);
  EXPECT_THROW((void)probability_below(std::vector<double>{}, 0), Error);
  EXPECT_THROW((void)probability_below(std::vector{1.0}, nan), Error);
}

}  // namespace
}  // namespace areo::uncertainty
