// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/numeric/line.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <vector>

#include "areo/core/error.hpp"

namespace areo::numeric {
namespace {

using V = std::vector<double>;
LineFit line(const V& x, const V& y, const V& u, double x0) {
  return fit_line(x, y, Covariance::diagonal(u), x0);
}
LineFit offset(const V& x, const V& y, const V& u) {
  return fit_offset(x, y, Covariance::diagonal(u), 0);
}
constexpr double nan = std::numeric_limits<double>::quiet_NaN();

TEST(FitLine, ExactLineThroughTwoPoints) {
  const LineFit f = line(V{1, 3}, V{2, 8}, V{0.1, 0.1}, 1);
  EXPECT_NEAR(f.intercept, 2, 1e-14);
  EXPECT_NEAR(f.slope, 3, 1e-14);
  EXPECT_EQ(f.degrees_of_freedom, 0);
  EXPECT_TRUE(std::isnan(f.residual_variance()));
  // Two points, each known to u: u(slope) = u √2 / distance.
  EXPECT_NEAR(std::sqrt(f.var_slope), 0.1 * std::sqrt(2.0) / 2, 1e-14);
}

TEST(FitLine, WeightsAreInverseVariances) {
  // A point known a thousand times worse hardly pulls.
  const LineFit f = line(V{0, 1, 2}, V{0, 1, 5}, V{1, 1, 1000}, 0);
  EXPECT_NEAR(f.at(2), 2, 1e-4);
}

TEST(FitOffset, IsTheWeightedMean) {
  const LineFit f = offset(V{1, 2}, V{10, 20}, V{1, 2});
  EXPECT_NEAR(f.intercept, (10 + 20 / 4.0) / (1 + 1 / 4.0), 1e-13);
  EXPECT_NEAR(f.var_intercept, 1 / 1.25, 1e-14);
  EXPECT_EQ(f.slope, 0);
  EXPECT_NEAR(f.chi_squared, 4 + 64 / 4.0, 1e-12);  // mean 12: residuals -2 and 8
}

// Values of a common error c and own errors 1: V = 1 + c². By hand, for two values 1/V has the row
// sums 1 / (1 + 2 c²), so the mean is plain and its variance (1 + 2 c²) / 2.
TEST(FitOffset, ACommonErrorDoesNotAverageOut) {
  Covariance v{2};
  const double c2 = 9;
  for (std::size_t i = 0; i < 2; ++i) v.set(i, i, 1 + c2);
  v.set(0, 1, c2);
  const LineFit f = fit_offset(V{1, 2}, V{10, 14}, v, 0);
  EXPECT_NEAR(f.intercept, 12, 1e-12);
  EXPECT_NEAR(f.var_intercept, (1 + 2 * c2) / 2, 1e-12);
  EXPECT_NEAR(f.chi_squared, 16 / 2.0, 1e-12);  // the difference 4 has the variance 2 of own errors
}

// The same errors leave the slope better known than independent ones of that size would.
TEST(FitLine, ACommonErrorLeavesTheSlope) {
  Covariance v{3};
  const double c2 = 9;
  for (std::size_t i = 0; i < 3; ++i)
    for (std::size_t j = i; j < 3; ++j) v.set(i, j, c2 + (i == j ? 1 : 0));
  const LineFit f = fit_line(V{0, 1, 2}, V{1, 2, 4}, v, 1);
  const LineFit own = line(V{0, 1, 2}, V{1, 2, 4}, V{1, 1, 1}, 1);
  EXPECT_NEAR(f.slope, own.slope, 1e-12);
  EXPECT_NEAR(f.var_slope, own.var_slope, 1e-12);
  EXPECT_NEAR(f.var_intercept, own.var_intercept + c2, 1e-12);
  EXPECT_NEAR(f.chi_squared, own.chi_squared, 1e-12);
}

TEST(LineFit, CentredIsTheSameLineWithoutCorrelation) {
  const LineFit f = line(V{0, 1, 5}, V{1, 2, 4}, V{1, 2, 1}, 3);
  const LineFit c = f.centred();
  const LineFit anew = line(V{0, 1, 5}, V{1, 2, 4}, V{1, 2, 1}, c.x0);
  EXPECT_NEAR(anew.covariance, 0, 1e-12);
  EXPECT_NEAR(c.intercept, anew.intercept, 1e-12);
  EXPECT_NEAR(c.var_intercept, anew.var_intercept, 1e-12);
  EXPECT_EQ(c.slope, f.slope);
  EXPECT_EQ(offset(V{1, 2}, V{10, 20}, V{1, 2}).centred().x0, 0);
}

TEST(Fit, RefusesWhatCannotBeFitted) {
  EXPECT_THROW((void)line(V{1}, V{1}, V{1}, 0), Error);
  EXPECT_THROW((void)line(V{1, 1}, V{1, 2}, V{1, 1}, 0), Error);
  EXPECT_THROW((void)line(V{1, 2}, V{1}, V{1, 1}, 0), Error);
  EXPECT_THROW((void)line(V{1, 2}, V{1, nan}, V{1, 1}, 0), Error);
  EXPECT_THROW((void)line(V{1, 2}, V{1, 2}, V{1, 0}, 0), Error);
  EXPECT_THROW((void)line(V{1, 2}, V{1, 2}, V{1, nan}, 0), Error);
  EXPECT_THROW((void)offset(V{}, V{}, V{}), Error);
  Covariance no_own_error{2};  // two values with one common error: one value, twice
  for (std::size_t i = 0; i < 2; ++i)
    for (std::size_t j = 0; j < 2; ++j) no_own_error.set(i, j, 1);
  EXPECT_THROW((void)fit_offset(V{1, 2}, V{1, 2}, no_own_error, 0), Error);
}

}  // namespace
}  // namespace areo::numeric
