// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/trend/state.hpp"

#include <gtest/gtest.h>

#include "daily.hpp"

namespace areo::trend {
namespace {

using testing::daily;
using testing::series;
using testing::V;

Phase phase(const V& gravity) { return state_of(daily(gravity)).phase; }

// Of a weak drink: no single step is certain, the whole is.
TEST(State, AFallThatNoStepShows) {
  const State s = state_of(daily({1.022, 1.021, 1.020, 1.019, 1.018, 1.017, 1.016}));
  EXPECT_EQ(s.phase, Phase::falling);
  ASSERT_TRUE(s.fall);
  EXPECT_LE(s.fall->days, 5);
  EXPECT_NEAR(s.fall->value.estimate / s.fall->days, 0.001, 1e-9);
  EXPECT_LT(s.fall->expanded(), s.fall->value.estimate);
}

// Half a division a day, read in whole divisions: what looks like rest is none.
TEST(State, ASlowFallIsNotSteady) {
  EXPECT_EQ(phase({1.022, 1.022, 1.021, 1.021, 1.020, 1.020, 1.019, 1.019}), Phase::falling);
}

TEST(State, ASlipMovesNothing) {
  const State s = state_of(series({3, 4, 5, 6, 9, 10}, {1.022, 1.021, 1.020, 1.018, 1.15, 1.014}));
  EXPECT_EQ(s.phase, Phase::falling);
  ASSERT_EQ(s.odd.size(), 1U);
  EXPECT_EQ(s.odd[0].point, 4U);
  const State down = state_of(daily({1.022, 1.022, 1.021, 1.019, 1.0135, 1.018, 1.017}));
  EXPECT_EQ(down.phase, Phase::falling);
  ASSERT_EQ(down.odd.size(), 1U);
  EXPECT_EQ(down.odd[0].point, 4U);
}

// One low reading at the end may be a slip: the next one tells.
TEST(State, NoSingleReadingMakesAFall) {
  const State s = state_of(daily({1.022, 1.0222, 1.0219, 1.0221, 1.017}));
  EXPECT_NE(s.phase, Phase::falling);
  EXPECT_EQ(s.unconfirmed, 4U);
  EXPECT_EQ(phase({1.022, 1.0222, 1.0219, 1.0221, 1.017, 1.0145, 1.012}), Phase::falling);
}

// What is lifted confirms nothing: neither the last reading nor the last clear one counts yet.
TEST(State, TwoReadingsToBeConfirmed) {
  Series s = daily({1.046, 1.0459, 1.0461, 1.046, 1.040, 1.012});
  s.lifted = {false, false, false, false, false, true};
  const State state = state_of(s);
  EXPECT_EQ(state.unconfirmed, 4U);
  EXPECT_EQ(state.last, 3U);
  EXPECT_NE(state.phase, Phase::falling);
}

// Of the last three readings the fall is beyond chance, and hangs on one of them.
TEST(State, AFallThatHangsOnAReadingIsNotNoFall) {
  Series s = series({0.22, 2.22, 3.19, 5.22, 6.15, 7.16, 8.22},
                    {1.02197, 1.01338, 1.00951, 1.00441, 1.00298, 1.00240, 1.00204});
  for (std::size_t i = 0; i < s.size(); ++i) s.errors.set_own(i, 0.00021);
  EXPECT_EQ(state_of(s).phase, Phase::fell);
}

// Two readings far apart, or a first one far above all others: it may be a slip, and is not rest.
TEST(State, AFallFromOneReadingIsNotNotBegun) {
  for (const V& gravity : {V{1.048, 1.040}, V{1.0211, 1.016, 1.016, 1.016}}) {
    const State s = state_of(daily(gravity));
    EXPECT_EQ(s.phase, Phase::unclear);
    EXPECT_NE(s.why.find("single reading"), std::string::npos);
    EXPECT_TRUE(s.hidden);
  }
}

TEST(State, AFallTellsItsEnds) {
  const Series s = daily({1.020, 1.0201, 1.0199, 1.015, 1.010, 1.005, 1.000});
  const auto fall = state_of(s).fall;
  ASSERT_TRUE(fall);
  EXPECT_EQ(fall->last, 6U);
  EXPECT_EQ(s.days[fall->last] - s.days[fall->first], fall->days);
}

TEST(State, FollowsAFerment) {
  V gravity{1.048, 1.0482, 1.040, 1.028, 1.018, 1.0125};
  EXPECT_EQ(phase({gravity[0], gravity[1]}), Phase::not_begun);
  EXPECT_EQ(phase(gravity), Phase::falling);
  gravity.insert(gravity.end(), {1.011, 1.0102, 1.0103});
  while (gravity.size() < 14) gravity.push_back(1.0101);
  const State open = state_of(daily(gravity));
  EXPECT_EQ(open.phase, Phase::no_fall);
  ASSERT_TRUE(open.hidden);
  EXPECT_GT(open.hidden->per_day, 0);
  while (gravity.size() < 32) gravity.push_back(1.0101);
  const State rest = state_of(daily(gravity));
  EXPECT_EQ(rest.phase, Phase::steady);
  EXPECT_LT(rest.hidden->per_day * 7, 0.0005);  // below 0.3 bar
}

TEST(State, OneReadingSaysNothing) {
  const State s = state_of(daily({1.048}));
  EXPECT_EQ(s.phase, Phase::unclear);
  EXPECT_FALSE(s.whole);
}

// Readings that lift can hide a fall, and never make one.
TEST(State, BubblesMakeNoFall) {
  Series s = daily({1.026, 1.024, 1.022, 1.0221, 1.0219, 1.022});
  EXPECT_EQ(state_of(s).phase, Phase::no_fall);
  s.lifted = {true, true, false, false, false, false};
  EXPECT_EQ(state_of(s).phase, Phase::not_begun);
}

TEST(State, ALiftedLaterReadingStillShowsAFall) {
  Series s = daily({1.040, 1.036, 1.031, 1.026, 1.022});
  s.lifted = {false, false, false, true, true};
  EXPECT_EQ(state_of(s).phase, Phase::falling);
}

TEST(State, AnOddReadingKeepsRestFromBeingCalledSteady) {
  V gravity{1.048, 1.040, 1.028, 1.018, 1.0125};
  while (gravity.size() < 36) gravity.push_back(1.0101);
  EXPECT_EQ(phase(gravity), Phase::steady);
  gravity[30] = 1.0201;
  const State s = state_of(daily(gravity));
  EXPECT_EQ(s.phase, Phase::no_fall);
  EXPECT_NE(s.why.find("odd"), std::string::npos);
}

}  // namespace
}  // namespace areo::trend
