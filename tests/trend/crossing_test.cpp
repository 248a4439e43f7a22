// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/trend/crossing.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "areo/core/error.hpp"

namespace areo::trend {
namespace {

constexpr double near = 0.001;

// From 1.050 to 1.010, half of it on day 3.
double gravity(double day) { return 1.050 - 0.040 / (1 + std::exp(-1.2 * (day - 3))); }

Series read(int days, double own = 0.0003) {
  Series s;
  for (int day = 0; day <= days; ++day) {
    s.days.push_back(day);
    s.gravity.push_back(gravity(day));
  }
  s.errors = numeric::SharedErrors::independent(std::vector<double>(s.size(), own));
  return s;
}

TEST(Crossing, IsWhereTheCurvePassesIt) {
  for (const double value : {1.045, 1.030, 1.012}) {
    const Crossing c = crossing_of(read(9), near, value);
    ASSERT_TRUE(c.day && c.lo && c.hi) << value << c.refused;
    EXPECT_NEAR(gravity(*c.day), value, 1e-8);  // far below what is printed
    EXPECT_LT(*c.lo, *c.day);
    EXPECT_GT(*c.hi, *c.day);
  }
}

// At the steepest point u of the day is not far from u of a reading over the steepness; two
// readings or more tell it, and the curve has four parameters.
TEST(Crossing, IsAsSureAsTheReadings) {
  const Crossing c = crossing_of(read(9), near, 1.030);
  const double steepest = 0.040 * 1.2 / 4, of_one = 1.645 * 0.0003 / steepest;
  EXPECT_LT((*c.hi - *c.lo) / 2, of_one);
  EXPECT_GT((*c.hi - *c.lo) / 2, of_one / 3);
  const Crossing coarser = crossing_of(read(9, 0.0006), near, 1.030);
  EXPECT_NEAR((*coarser.hi - *coarser.lo) / (*c.hi - *c.lo), 2, 0.1);  // nearly in proportion
  const Crossing surer = crossing_of(read(9), near, 1.030, 0.99);
  EXPECT_GT(*surer.hi - *surer.lo, *c.hi - *c.lo);
}

TEST(Crossing, IsForetold) {
  const Crossing c = crossing_of(read(5), near, 1.0115);
  ASSERT_TRUE(c.day);
  EXPECT_GT(*c.day, 5);
  EXPECT_NEAR(gravity(*c.day), 1.0115, 1e-7);  // far below what is printed, too
}

TEST(Crossing, OfWhatLiesBeyondTheEndThereIsNone) {
  const Crossing far = crossing_of(read(9), near, 1.005);
  EXPECT_FALSE(far.day || far.lo || far.hi);
  EXPECT_FALSE(far.refused.empty());
  const Crossing nearly = crossing_of(read(9), near, 1.0101);
  EXPECT_TRUE(nearly.day && nearly.lo);
  EXPECT_FALSE(nearly.hi) << "it may never get there";
}

TEST(Crossing, BeforeTheFirstReadingIsOpen) {
  const Series late = read(9).from(1);
  for (const double value : {1.0469, 1.0495}) {  // just before it, and long before
    const Crossing c = crossing_of(late, near, value);
    EXPECT_TRUE(c.refused.empty()) << c.refused;
    EXPECT_FALSE(c.lo) << value;
  }
}

TEST(Crossing, OfWhatWasPassedLongBeforeThereIsNone) {
  const Crossing c = crossing_of(read(9), near, 1.055);
  EXPECT_FALSE(c.day || c.lo || c.hi);
  EXPECT_FALSE(c.refused.empty());
}

// The interval grows with the level, bit by bit, and no level loses an end.
TEST(Crossing, EveryLevelHasItsEnds) {
  Series s = read(11, 0.0005);
  for (std::size_t i = 0; i < s.size(); ++i) s.gravity[i] += i % 3 == 0 ? 0.0004 : -0.0002;
  double last = 0;
  for (double level = 0.80; level < 0.985; level += 0.005) {
    const Crossing c = crossing_of(s, near, 1.045, level);
    ASSERT_TRUE(c.lo && c.hi) << level;
    EXPECT_GT(*c.hi - *c.lo, last) << level;
    last = *c.hi - *c.lo;
  }
}

TEST(Crossing, TooFewReadingsAreRefused) {
  EXPECT_FALSE(crossing_of(read(3), near, 1.030).refused.empty());
}

TEST(Crossing, WhatIsNoNumberIsRefused) {
  constexpr double nan = std::numeric_limits<double>::quiet_NaN();
  EXPECT_THROW((void)crossing_of(read(9), nan, 1.030), Error);
  EXPECT_THROW((void)crossing_of(read(9), near, nan), Error);
  EXPECT_THROW((void)crossing_of(read(9), near, 1.030, nan), Error);
  EXPECT_THROW((void)crossing_of(read(9), 0, 1.030), Error);
  EXPECT_THROW((void)crossing_of(read(9), near, 1.030, 1), Error);
}

}  // namespace
}  // namespace areo::trend
