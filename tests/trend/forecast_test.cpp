// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/trend/forecast.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <optional>
#include <vector>

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

Forecast outlook(const Series& s, const std::optional<uncertainty::Value>& low = lowest) {
  return forecast_of(s, state_of(s), low);
}

const V falls{1.0480, 1.0460, 1.0430, 1.0350, 1.0260, 1.0170, 1.0120, 1.0095};

TEST(Forecast, EndsBetweenWhereItIsAndWhereNothingIsLeft) {
  const Forecast o = outlook(daily(falls));
  ASSERT_TRUE(o.highest && o.lowest);
  EXPECT_NEAR(*o.highest, 1.0095 + expanded, 1e-5);  // 1.96 as printed
  EXPECT_NEAR(*o.lowest, 0.9900 - 1.96 * 0.0010, 1e-6);
  EXPECT_TRUE(o.refused.empty());
}

TEST(Forecast, KnowsNoLowestEndWithoutAnOriginal) {
  const Forecast o = outlook(daily(falls), std::nullopt);
  EXPECT_TRUE(o.highest);
  EXPECT_FALSE(o.lowest);
}

// The original or the reading is off.
TEST(Forecast, SaysNothingOfALowestEndAboveTheReading) {
  EXPECT_FALSE(outlook(daily(falls), uncertainty::Value{1.0300, 0.0010}).lowest);
}

TEST(Forecast, OneReadingIsABound) {
  const Forecast o = outlook(daily({1.0480}));
  ASSERT_TRUE(o.highest);
  EXPECT_NEAR(*o.highest, 1.0480 + expanded, 1e-5);
  EXPECT_FALSE(o.steady_from);
}

// A low slip would promise too much.
TEST(Forecast, AReadingThatWaitsForTheNextBoundsNothing) {
  const Series s = daily({1.022, 1.0222, 1.0219, 1.0221, 1.012});
  ASSERT_EQ(state_of(s).unconfirmed, 4U);
  EXPECT_NEAR(outlook(s).highest.value(), 1.0221 + expanded, 1e-5);
}

// Bubbles only lift: the reading is a bound all the same, and the better one if it is lower.
TEST(Forecast, ALiftedReadingIsABoundToo) {
  Series s = daily(falls);
  s.lifted.resize(falls.size());
  s.lifted.back() = true;
  EXPECT_NEAR(outlook(s).highest.value(), 1.0095 + expanded, 1e-5);
  s.gravity.back() = 1.0150;
  EXPECT_NEAR(outlook(s).highest.value(), 1.0120 + expanded, 1e-5);
}

TEST(Forecast, IsRefusedWhereReadingsDoNotGoTogether) {
  const Series s = daily({1.020, 1.050, 1.010, 1.045, 1.012, 1.060});
  ASSERT_TRUE(conflicting(state_of(s)));
  const Forecast o = outlook(s);
  EXPECT_FALSE(o.highest || o.lowest || o.steady_from);
  EXPECT_FALSE(o.refused.empty());
}

// With the same reading every day it is steady on that day, and on none before.
TEST(Forecast, TellsWhenItCanBeCalledSteady) {
  const Forecast o = outlook(daily(falls));
  ASSERT_TRUE(o.steady_from);
  EXPECT_EQ(o.step_days, 1);
  V same = falls;
  while (state_of(daily(same)).phase != Phase::steady && same.size() < 60)
    same.push_back(falls.back());
  EXPECT_NEAR(*o.steady_from, static_cast<double>(same.size() - 1), 1e-9);
}

// More often than daily, if they were made so.
TEST(Forecast, CountsOnReadingsAsOftenAsTheyWere) {
  V days;
  for (std::size_t i = 0; i < falls.size(); ++i) days.push_back(0.5 * static_cast<double>(i));
  const Forecast o = outlook(series(days, falls));
  EXPECT_NEAR(o.step_days, 0.5, 1e-9);
  ASSERT_TRUE(o.steady_from);
  EXPECT_LT(*o.steady_from - days.back(), *outlook(daily(falls)).steady_from - 7);
  days.clear();
  for (std::size_t i = 0; i < falls.size(); ++i) days.push_back(3 * static_cast<double>(i));
  EXPECT_EQ(outlook(series(days, falls)).step_days, 1);
}

TEST(Forecast, WhatIsSteadyOrHasNotBegunGetsNoDay) {
  EXPECT_FALSE(outlook(daily({1.050, 1.0501, 1.0499, 1.050})).steady_from);
  V same = falls;
  same.resize(60, falls.back());
  ASSERT_EQ(state_of(daily(same)).phase, Phase::steady);
  EXPECT_FALSE(outlook(daily(same)).steady_from);
}

// Two instruments by turns: which of them somebody reads next, nobody knows.
struct Pair {
  std::array<double, 2> own, shared, off;  // off: how much too high it reads
};
enum class Next { by_turns, first, second };

class Turns {
 public:
  explicit Turns(const Pair& pair) : pair_{pair} {}
  void read(double gravity, std::size_t instrument) {
    s_.days.push_back(static_cast<double>(s_.size()));
    s_.gravity.push_back(gravity + pair_.off.at(instrument));
    used_.push_back(instrument);
  }
  [[nodiscard]] std::size_t size() const { return s_.size(); }
  [[nodiscard]] Series series() const {
    Series s{s_.days, s_.gravity, numeric::SharedErrors{s_.size()}, {}};
    for (std::size_t i = 0; i < s.size(); ++i) {
      s.errors.set_own(i, pair_.own.at(used_[i]));
      s.errors.add_share(i, used_[i], pair_.shared.at(used_[i]));
      s.errors.add_share(i, 2, 0.0003);  // of the thermometer
    }
    return s;
  }

 private:
  Pair pair_;
  Series s_;
  std::vector<std::size_t> used_;
};

// The day on which it is called steady if it rests from now on.
std::optional<double> steady_day(Turns turns, double end, Next next) {
  for (std::size_t i = 0; i < 80; ++i) {
    const std::size_t turn = turns.size() % 2;
    turns.read(end, next == Next::by_turns ? turn : next == Next::first ? 0 : 1);
    const Series s = turns.series();
    if (state_of(s).phase == Phase::steady) return s.days.back();
  }
  return std::nullopt;
}

TEST(Forecast, NoInstrumentOfTwoMakesItSteadyBefore) {
  const V slow{1.022, 1.021, 1.020, 1.019, 1.018, 1.017, 1.016, 1.015, 1.0145, 1.0143, 1.0142};
  const std::array pairs{Pair{{0.0004, 0.0004}, {0.0010, 0.0010}, {0, 0}},
                         Pair{{0.0004, 0.0004}, {0.0010, 0.0010}, {0.0010, -0.0010}},
                         Pair{{0.0004, 0.0004}, {0.0010, 0.0003}, {0.0008, 0}},
                         Pair{{0.0005, 0.0002}, {0.0010, 0.0005}, {-0.0008, 0.0004}},
                         Pair{{0.0002, 0.0006}, {0.0005, 0.0020}, {0, 0.0020}}};
  int told = 0;
  for (const V& gravity : {falls, slow})
    for (const Pair& pair : pairs) {
      Turns turns{pair};
      for (std::size_t i = 0; i < gravity.size(); ++i) {
        turns.read(gravity[i], i % 2);
        if (i < 3 || i % 3 == 1) continue;
        const Forecast o = outlook(turns.series());
        for (const Next next : {Next::by_turns, Next::first, Next::second}) {
          const auto day = steady_day(turns, gravity[i], next);
          if (!day || state_of(turns.series()).phase == Phase::steady) continue;
          if (!o.steady_from) continue;
          ++told;
          EXPECT_LE(*o.steady_from, *day + 1e-9)
              << i << ' ' << static_cast<int>(next) << ' ' << &pair - pairs.data();
        }
      }
    }
  EXPECT_GT(told, 100);
}

// A stem so coarse that no sixty days would do.
TEST(Forecast, NoDayBeyondTheFarthest) {
  Series s = daily(falls);
  for (std::size_t i = 0; i < s.size(); ++i) s.errors.set_own(i, 0.004);
  const Forecast o = outlook(s);
  EXPECT_TRUE(o.highest);
  EXPECT_FALSE(o.steady_from);
}

}  // namespace
}  // namespace areo::trend
