#include "areo/trend/outlier.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace areo::trend {
namespace {

constexpr double near = 0.001, own = 0.0005;

double gravity(double day) { return 1.050 - 0.040 / (1 + std::exp(-1.2 * (day - 3))); }

Series read() {
  Series s;
  for (int day = 0; day <= 11; ++day) {
    s.days.push_back(day);
    s.gravity.push_back(gravity(day) + (day % 2 == 0 ? own : -own) / 2);
  }
  s.covariance = numeric::Covariance::diagonal(std::vector<double>(s.size(), own));
  return s;
}

TEST(Outlier, OrdinaryScatterHasNone) { EXPECT_TRUE(outliers_of(read(), near).empty()); }

TEST(Outlier, IsFoundWithWhatItIsOff) {
  Series s = read();
  s.gravity[7] = gravity(7) + 0.010;
  const auto found = outliers_of(s, near);
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].point, 7U);
  EXPECT_NEAR(found[0].off, 0.010, own);  // the others say where it should be
}

// The larger one would hide the other, were they judged together.
TEST(Outlier, OneBehindAnotherIsFoundToo) {
  Series s = read();
  s.gravity[5] = gravity(5) - 0.030;
  s.gravity[9] = gravity(9) + 0.006;
  const auto found = outliers_of(s, near);
  ASSERT_EQ(found.size(), 2U);
  EXPECT_EQ(found[0].point, 5U);
  EXPECT_EQ(found[1].point, 9U);
  EXPECT_NEAR(found[0].off, -0.030, own);
  EXPECT_NEAR(found[1].off, 0.006, own);
}

// Of twelve two may be odd; with four it may as well be the curve.
TEST(Outlier, OfManyNoneIsSingledOut) {
  Series s = read();
  for (const std::size_t i : {1U, 4U, 7U, 10U}) s.gravity[i] += i % 2 == 0 ? 0.012 : -0.009;
  EXPECT_TRUE(outliers_of(s, near).empty());
}

TEST(Outlier, TooFewPointsHaveNone) {
  Series s = read();
  s.gravity[2] += 0.020;
  EXPECT_TRUE(outliers_of(s.only(std::vector<std::size_t>{0, 1, 2, 3, 4}), near).empty());
}

}  // namespace
}  // namespace areo::trend
