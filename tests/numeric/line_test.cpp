#include "areo/numeric/line.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <vector>

#include "areo/core/error.hpp"

namespace areo::numeric {
namespace {

using V = std::vector<double>;
constexpr double nan = std::numeric_limits<double>::quiet_NaN();

TEST(FitLine, ExactLineThroughTwoPoints) {
  const LineFit f = fit_line(V{1, 3}, V{2, 8}, V{0.1, 0.1}, 1);
  EXPECT_NEAR(f.intercept, 2, 1e-14);
  EXPECT_NEAR(f.slope, 3, 1e-14);
  EXPECT_EQ(f.degrees_of_freedom, 0);
  EXPECT_TRUE(std::isnan(f.residual_variance()));
  // Two points, each known to u: u(slope) = u √2 / distance.
  EXPECT_NEAR(std::sqrt(f.var_slope), 0.1 * std::sqrt(2.0) / 2, 1e-14);
}

TEST(FitLine, WeightsAreInverseVariances) {
  // A point known a thousand times worse hardly pulls.
  const LineFit f = fit_line(V{0, 1, 2}, V{0, 1, 5}, V{1, 1, 1000}, 0);
  EXPECT_NEAR(f.at(2), 2, 1e-4);
}

TEST(FitOffset, IsTheWeightedMean) {
  const LineFit f = fit_offset(V{1, 2}, V{10, 20}, V{1, 2}, 0);
  EXPECT_NEAR(f.intercept, (10 + 20 / 4.0) / (1 + 1 / 4.0), 1e-13);
  EXPECT_NEAR(f.var_intercept, 1 / 1.25, 1e-14);
  EXPECT_EQ(f.slope, 0);
  EXPECT_NEAR(f.chi_squared, 4 + 64 / 4.0, 1e-12);  // mean 12: residuals -2 and 8
}

TEST(Fit, RefusesWhatCannotBeFitted) {
  EXPECT_THROW((void)fit_line(V{1}, V{1}, V{1}, 0), Error);
  EXPECT_THROW((void)fit_line(V{1, 1}, V{1, 2}, V{1, 1}, 0), Error);
  EXPECT_THROW((void)fit_line(V{1, 2}, V{1}, V{1, 1}, 0), Error);
  EXPECT_THROW((void)fit_line(V{1, 2}, V{1, nan}, V{1, 1}, 0), Error);
  EXPECT_THROW((void)fit_line(V{1, 2}, V{1, 2}, V{1, 0}, 0), Error);
  EXPECT_THROW((void)fit_line(V{1, 2}, V{1, 2}, V{1, nan}, 0), Error);
  EXPECT_THROW((void)fit_offset(V{}, V{}, V{}, 0), Error);
}

}  // namespace
}  // namespace areo::numeric
