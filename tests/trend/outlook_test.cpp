#include "areo/trend/outlook.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "daily.hpp"

namespace areo::trend {
namespace {

using testing::daily;
using testing::own;
using testing::series;
using testing::shared;
using testing::V;

const double expanded = 1.96 * std::hypot(own, shared);
const uncertainty::Value lowest{0.9900, 0.0010};

Outlook outlook(const Series& s, const std::optional<uncertainty::Value>& low = lowest) {
  return outlook_of(s, state_of(s), low);
}

const V falls{1.0480, 1.0460, 1.0430, 1.0350, 1.0260, 1.0170, 1.0120, 1.0095};

TEST(Outlook, EndsBetweenWhereItIsAndWhereNothingIsLeft) {
  const Outlook o = outlook(daily(falls));
  ASSERT_TRUE(o.highest && o.lowest);
  EXPECT_NEAR(*o.highest, 1.0095 + expanded, 1e-5);  // 1.96 as printed
  EXPECT_NEAR(*o.lowest, 0.9900 - 1.96 * 0.0010, 1e-6);
  EXPECT_TRUE(o.refused.empty());
}

TEST(Outlook, KnowsNoLowestEndWithoutAnOriginal) {
  const Outlook o = outlook(daily(falls), std::nullopt);
  EXPECT_TRUE(o.highest);
  EXPECT_FALSE(o.lowest);
}

// The original or the reading is off.
TEST(Outlook, SaysNothingOfALowestEndAboveTheReading) {
  EXPECT_FALSE(outlook(daily(falls), uncertainty::Value{1.0300, 0.0010}).lowest);
}

TEST(Outlook, OneReadingIsABound) {
  const Outlook o = outlook(daily({1.0480}));
  ASSERT_TRUE(o.highest);
  EXPECT_NEAR(*o.highest, 1.0480 + expanded, 1e-5);
  EXPECT_FALSE(o.steady_from);
}

// A low slip would promise too much.
TEST(Outlook, AReadingThatWaitsForTheNextBoundsNothing) {
  const Series s = daily({1.022, 1.0222, 1.0219, 1.0221, 1.012});
  ASSERT_EQ(state_of(s).unconfirmed, 4U);
  EXPECT_NEAR(outlook(s).highest.value(), 1.0221 + expanded, 1e-5);
}

// Bubbles only lift: the reading is a bound all the same, and the better one if it is lower.
TEST(Outlook, ALiftedReadingIsABoundToo) {
  Series s = daily(falls);
  s.lifted.resize(falls.size());
  s.lifted.back() = true;
  EXPECT_NEAR(outlook(s).highest.value(), 1.0095 + expanded, 1e-5);
  s.gravity.back() = 1.0150;
  EXPECT_NEAR(outlook(s).highest.value(), 1.0120 + expanded, 1e-5);
}

TEST(Outlook, IsRefusedWhereReadingsDoNotGoTogether) {
  const Series s = daily({1.020, 1.050, 1.010, 1.045, 1.012, 1.060});
  ASSERT_TRUE(conflicting(state_of(s)));
  const Outlook o = outlook(s);
  EXPECT_FALSE(o.highest || o.lowest || o.steady_from);
  EXPECT_FALSE(o.refused.empty());
}

// With the same reading every day it is steady on that day, and on none before.
TEST(Outlook, TellsWhenItCanBeCalledSteady) {
  const Outlook o = outlook(daily(falls));
  ASSERT_TRUE(o.steady_from);
  EXPECT_EQ(o.step_days, 1);
  V same = falls;
  while (state_of(daily(same)).phase != Phase::steady && same.size() < 60)
    same.push_back(falls.back());
  EXPECT_NEAR(*o.steady_from, static_cast<double>(same.size() - 1), 1e-9);
}

// More often than daily, if they were made so.
TEST(Outlook, CountsOnReadingsAsOftenAsTheyWere) {
  V days;
  for (std::size_t i = 0; i < falls.size(); ++i) days.push_back(0.5 * static_cast<double>(i));
  const Outlook o = outlook(series(days, falls));
  EXPECT_NEAR(o.step_days, 0.5, 1e-9);
  ASSERT_TRUE(o.steady_from);
  EXPECT_LT(*o.steady_from - days.back(), *outlook(daily(falls)).steady_from - 7);
  days.clear();
  for (std::size_t i = 0; i < falls.size(); ++i) days.push_back(3 * static_cast<double>(i));
  EXPECT_EQ(outlook(series(days, falls)).step_days, 1);
}

TEST(Outlook, WhatIsSteadyOrHasNotBegunGetsNoDay) {
  EXPECT_FALSE(outlook(daily({1.050, 1.0501, 1.0499, 1.050})).steady_from);
  V same = falls;
  same.resize(60, falls.back());
  ASSERT_EQ(state_of(daily(same)).phase, Phase::steady);
  EXPECT_FALSE(outlook(daily(same)).steady_from);
}

// A stem so coarse that no sixty days would do.
TEST(Outlook, NoDayBeyondTheFarthest) {
  Series s = daily(falls);
  for (std::size_t i = 0; i < s.size(); ++i) s.errors.set_own(i, 0.004);
  const Outlook o = outlook(s);
  EXPECT_TRUE(o.highest);
  EXPECT_FALSE(o.steady_from);
}

}  // namespace
}  // namespace areo::trend
