// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/trend/whole_divisions.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "areo/trend/state.hpp"
#include "daily.hpp"

namespace areo::trend {
namespace {

using testing::daily;
using testing::own;
using testing::V;

constexpr double division = 0.002;

std::vector<Noted> noted(const V& gravity) {
  std::vector<Noted> all;
  for (const double g : gravity) all.emplace_back(g, division);
  return all;
}

// One a day on a stem of 0.002.
Series read(const V& gravity) {
  Series s = daily(gravity);
  count_rounding(s, noted(gravity), V(gravity.size(), division / std::sqrt(12)));
  return s;
}

V fall_and(std::size_t days, double end) {
  V gravity{1.020, 1.016, 1.012, 1.008, 1.006};
  gravity.resize(gravity.size() + days, end);
  return gravity;
}

TEST(WholeDivisions, NothingBetweenTheMarks) {
  EXPECT_TRUE(in_whole_divisions(noted({1.010})));
  EXPECT_FALSE(in_whole_divisions(noted({1.011})));
  EXPECT_TRUE(in_whole_divisions(noted({1.010, 1.008, 1.008, 1.008, 1.008})));
  EXPECT_FALSE(in_whole_divisions({}));
}

TEST(WholeDivisions, OneReadingBetweenThemOfFour) {
  EXPECT_TRUE(in_whole_divisions(noted({1.020, 1.016, 1.013, 1.010, 1.008})));
  EXPECT_FALSE(in_whole_divisions(noted({1.020, 1.016, 1.013, 1.010})));
  EXPECT_TRUE(in_whole_divisions(noted({1.020, 1.016, 1.015, 1.012, 1.010, 1.009, 1.008, 1.006})));
  EXPECT_FALSE(in_whole_divisions(noted({1.020, 1.017, 1.015, 1.012, 1.010, 1.009, 1.008, 1.006})));
}

// A long rest on a mark says nothing of who reads halves.
TEST(WholeDivisions, WhatRepeatsCountsOnce) {
  V halves{1.020, 1.015, 1.012, 1.009};
  halves.resize(30, 1.008);
  EXPECT_FALSE(in_whole_divisions(noted(halves)));
}

TEST(WholeDivisions, TheRoundingIsCounted) {
  const Series s = read({1.020, 1.016, 1.012, 1.008});
  EXPECT_NEAR(s.errors.own(2), std::hypot(own, division / std::sqrt(12)), 1e-12);
  EXPECT_NEAR(s.division, division, 1e-12);
  EXPECT_NEAR(s.from(1).division, division, 1e-12);
  for (const V& other : {V{1.020, 1.016, 1.012}, V{1.020, 1.015, 1.013, 1.008}}) {
    const Series finer = read(other);
    EXPECT_DOUBLE_EQ(finer.errors.own(1), own);
    EXPECT_EQ(finer.division, 0);
  }
}

// A fall of nearly a division may hide as long as one mark is read: 0.00013 a day in these fifteen
// days, 0.5 bar a week. What is read once beside the marks does not change that.
TEST(WholeDivisions, ADivisionHidesInTheRest) {
  for (const double one : {1.016, 1.015}) {
    V gravity = fall_and(16, 1.004);
    gravity[1] = one;
    const State state = state_of(read(gravity));
    EXPECT_EQ(state.phase, Phase::no_fall);
    ASSERT_TRUE(state.hidden);
    EXPECT_GE(state.hidden->per_day, division / state.hidden->days);
  }
}

// Of an original of 1.020, 0.3 bar a week is 0.00006 a day: a division in 32 days.
TEST(WholeDivisions, FiveWeeksOnOneMarkAreSteady) {
  EXPECT_EQ(state_of(read(fall_and(30, 1.004))).phase, Phase::no_fall);
  EXPECT_EQ(state_of(read(fall_and(36, 1.004))).phase, Phase::steady);
}

}  // namespace
}  // namespace areo::trend
