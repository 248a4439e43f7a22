// SPDX-License-Identifier: GPL-3.0-or-later
#include "numeric/secant.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

namespace areo::numeric {
namespace {

TEST(Secant, FindsTheRootOfANearlyStraightFunctionInAFewCalls) {
  int calls = 0;
  const auto f = [&](double x) {
    ++calls;
    return 400 * x * (1 + 0.3 * x) - 40;
  };
  const auto x = secant(f, 0, 0.05, -0.1, 0.85);
  ASSERT_TRUE(x);
  // The root of 0.3 x² + x - 0.1, and a few roundings.
  EXPECT_NEAR(*x, (std::sqrt(1 + 4 * 0.3 * 0.1) - 1) / (2 * 0.3), 1e-15);
  EXPECT_LE(calls, 7);
}

TEST(Secant, TakesAGuessThatIsTheRoot) {
  const auto f = [](double x) { return x; };
  EXPECT_EQ(secant(f, 0, 0.1, -1, 1), 0);
  EXPECT_EQ(secant(f, 0.1, 0, -1, 1), 0);
}

TEST(Secant, FindsNothingBeyondTheEnds) {
  EXPECT_FALSE(secant([](double x) { return x - 2; }, 0, 0.1, -1, 1));
}

TEST(Secant, FindsNothingWhereThereIsNoRoot) {
  EXPECT_FALSE(secant([](double x) { return 1 + x * x; }, 0, 0.1, -1e9, 1e9));
  EXPECT_FALSE(secant([](double) { return 1.0; }, 0, 0.1, -1, 1));
  EXPECT_FALSE(
      secant([](double) { return std::numeric_limits<double>::quiet_NaN(); }, 0, 0.1, -1, 1));
}

}  // namespace
}  // namespace areo::numeric
