// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/trend/odd.hpp"

#include <gtest/gtest.h>

#include <random>

#include "daily.hpp"

namespace areo::trend {
namespace {

using testing::daily;
using testing::V;

std::vector<std::size_t> odd(const V& gravity) {
  std::vector<std::size_t> points;
  for (const OddPoint& o : odd_points(daily(gravity), 1)) points.push_back(o.point);
  return points;
}

TEST(Odd, NothingInAFallThatScatters) {
  EXPECT_TRUE(odd({1.022, 1.0225, 1.021, 1.0213, 1.019, 1.0195, 1.018}).empty());
}

TEST(Odd, ATypedDigit) {
  EXPECT_EQ(odd({1.022, 1.021, 1.020, 1.018, 1.15, 1.014}), std::vector<std::size_t>{4});
  EXPECT_EQ(odd({1.022, 1.022, 1.021, 1.019, 1.0135, 1.018, 1.017}), std::vector<std::size_t>{4});
  EXPECT_EQ(odd({1.002, 1.022, 1.021, 1.019, 1.018}), std::vector<std::size_t>{0});
}

TEST(Odd, SaysByHowMuch) {
  const auto all = odd_points(daily({1.022, 1.021, 1.030, 1.019}), 1);
  ASSERT_EQ(all.size(), 1U);
  EXPECT_NEAR(all[0].off, 0.010, 1e-9);
}

// Bubbles lift a reading; that is no slip of the pen.
TEST(Odd, BubblesAreNot) {
  Series s = daily({1.022, 1.020, 1.018, 1.024, 1.014});
  EXPECT_EQ(odd_points(s, 1).size(), 1U);
  s.lifted = {false, false, false, true, false};
  EXPECT_TRUE(odd_points(s, 1).empty());
}

TEST(Scatter, IsOneWhereItCannotBeTold) {
  EXPECT_EQ(scatter_of(daily({1.020, 1.024})), 1);
  EXPECT_EQ(scatter_of(daily({1.022, 1.021, 1.020, 1.019, 1.018, 1.017, 1.016, 1.015})), 1);
}

// Five times what is stated, in a fall: about so much is found, and none of it is odd.
TEST(Scatter, IsSeenWhereReadingsRise) {
  std::mt19937 draw{20261129};
  std::normal_distribution<double> noise{0, 5 * testing::own};
  V gravity;
  for (int i = 0; i < 100; ++i) gravity.push_back(1.020 - 0.0001 * i + noise(draw));
  const double scatter = scatter_of(daily(gravity));
  EXPECT_GT(scatter, 3.5);  // its own scatter with 100 readings is some 15 %
  EXPECT_LT(scatter, 6.5);
  EXPECT_TRUE(odd_points(daily(gravity), scatter).empty());
}

}  // namespace
}  // namespace areo::trend
