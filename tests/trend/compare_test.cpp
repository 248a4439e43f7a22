// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/trend/compare.hpp"

#include <gtest/gtest.h>

#include <limits>

#include "areo/core/error.hpp"

namespace areo::trend {
namespace {

Verdict verdict(double difference, double u, double within) {
  return compare({difference, u}, within).verdict;
}

// Normal: U is 1.960 u, one-sided 1.645 u.
TEST(Compare, DecidesAtTheEdges) {
  EXPECT_EQ(verdict(0.197, 0.1, 0.5), Verdict::different);
  EXPECT_EQ(verdict(-0.197, 0.1, 0.5), Verdict::different);
  EXPECT_EQ(verdict(0.195, 0.1, 0.5), Verdict::same);
  EXPECT_EQ(verdict(0.1, 0.1, 0.2646), Verdict::same);
  EXPECT_EQ(verdict(0.1, 0.1, 0.2644), Verdict::not_told_apart);
  EXPECT_EQ(verdict(-0.1, 0.1, 0.2644), Verdict::not_told_apart);
}

// Nothing is the same that nobody said to be near enough.
TEST(Compare, WithoutAMarginNothingIsTheSame) {
  EXPECT_EQ(compare({0.0, 0.01}).verdict, Verdict::not_told_apart);
  EXPECT_EQ(compare({0.0, 0.01}, 0.1).verdict, Verdict::same);
  EXPECT_EQ(compare({0.1, 0.01}).verdict, Verdict::different);
}

TEST(Compare, TellsWhatWouldBeFound) {
  EXPECT_NEAR(compare({0.05, 0.1}, 0.5).detectable, 0.3605, 5e-5);  // 1.9600 + 1.6449
}

// Few degrees of freedom: 2.776 u, and one-sided 2.132 u, for four.
TEST(Compare, FewDegreesOfFreedomCount) {
  EXPECT_EQ(compare({0.27, 0.1, 4}, 0.5).verdict, Verdict::same);
  EXPECT_EQ(compare({0.28, 0.1, 4}, 0.5).verdict, Verdict::different);
  EXPECT_NEAR(compare({0.27, 0.1, 4}, 0.5).detectable, 0.4908, 5e-5);
}

TEST(Compare, RefusesWhatIsNoQuestion) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  for (const double within : {0.0, -0.5, nan, std::numeric_limits<double>::infinity()})
    EXPECT_THROW((void)compare({0.1, 0.1}, within), Error);
  EXPECT_THROW((void)compare({0.1, 0}, 0.5), Error);
  EXPECT_THROW((void)compare({nan, 0.1}, 0.5), Error);
  EXPECT_THROW((void)compare({0.1, nan}, 0.5), Error);
}

}  // namespace
}  // namespace areo::trend
