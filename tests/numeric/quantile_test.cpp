// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/numeric/quantile.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "areo/core/error.hpp"

namespace areo::numeric {
namespace {

constexpr double inf = std::numeric_limits<double>::infinity();

// [gum] table G.2, printed to two decimals.
TEST(StudentCoverage, GumTableG2) {
  EXPECT_NEAR(student_t_coverage(0.95, 1), 12.71, 0.005);
  EXPECT_NEAR(student_t_coverage(0.95, 4), 2.78, 0.005);
  EXPECT_NEAR(student_t_coverage(0.95, 19), 2.09, 0.005);
  EXPECT_NEAR(student_t_coverage(0.99, 16), 2.92, 0.005);
  EXPECT_NEAR(student_t_coverage(0.95, inf), 1.960, 0.0005);
  EXPECT_NEAR(student_t_coverage(0.9545, inf), 2.000, 0.0005);
}

TEST(Quantiles, AreInversesOfTheProbabilities) {
  for (const double p : {1e-6, 0.025, 0.3, 0.5, 0.9, 0.975, 0.999999}) {
    EXPECT_NEAR(normal_probability(normal_quantile(p)) / p, 1, 1e-12);
    for (const double nu : {1.0, 2.0, 3.5, 9.0, 50.0, 1e6})
      EXPECT_NEAR(student_t_probability(student_t_quantile(p, nu), nu) / p, 1, 1e-9)
          << p << ' ' << nu;
    EXPECT_EQ(student_t_quantile(p, inf), normal_quantile(p));
  }
  EXPECT_NEAR(normal_quantile(0.975), 1.959964, 5e-7);
  // One and two degrees of freedom in closed form: tan(π (p - 1/2)), (2 p - 1) / √(2 p (1 - p)).
  EXPECT_NEAR(student_t_quantile(0.75, 1), 1, 1e-12);
  EXPECT_NEAR(student_t_quantile(0.9, 2), 0.8 / std::sqrt(0.18), 1e-12);
  EXPECT_EQ(normal_probability(-inf), 0);
  EXPECT_EQ(student_t_probability(inf, 3), 1);
}

// Chi-squared, 95 % point: common statistical tables, from memory.
// A tiny part of a variance with few degrees of freedom leaves the whole with huge ones. The next
// terms add less than half of the first one from 10 degrees of freedom on; 1e-11 is left to GSL.
TEST(StudentQuantile, GoesOverIntoTheNormalOne) {
  for (double nu = 10; nu < 1e300; nu *= 10)
    for (const double p : {0.001, 0.025, 0.5, 0.975}) {
      const double z = normal_quantile(p);
      const double first_term = std::abs(z * z * z + z) / (4 * nu);  // of the expansion in 1 / nu
      EXPECT_NEAR(student_t_quantile(p, nu), z, 1.5 * first_term + 1e-11) << nu << ' ' << p;
    }
  EXPECT_NEAR(student_t_coverage(0.95, 1e25), 1.959963984540, 1e-12);
}

TEST(ChiSquared, CommonTable) {
  EXPECT_NEAR(chi_squared_quantile(0.95, 1), 3.841, 0.0005);
  EXPECT_NEAR(chi_squared_quantile(0.95, 2), 5.991, 0.0005);
  EXPECT_NEAR(chi_squared_quantile(0.95, 10), 18.307, 0.0005);
}

TEST(Quantiles, RefuseNonsense) {
  EXPECT_THROW((void)student_t_coverage(0, 5), Error);
  EXPECT_THROW((void)student_t_coverage(1, 5), Error);
  EXPECT_THROW((void)student_t_coverage(std::nan(""), 5), Error);
  EXPECT_THROW((void)student_t_coverage(0.95, 0), Error);
  EXPECT_THROW((void)student_t_coverage(0.95, std::nan("")), Error);
  EXPECT_THROW((void)chi_squared_quantile(0.95, 0), Error);
  EXPECT_THROW((void)normal_quantile(1), Error);
  EXPECT_THROW((void)normal_probability(std::nan("")), Error);
  EXPECT_THROW((void)student_t_quantile(0, 5), Error);
  EXPECT_THROW((void)student_t_quantile(0.5, std::nan("")), Error);
  EXPECT_THROW((void)student_t_probability(std::nan(""), 5), Error);
  EXPECT_THROW((void)student_t_probability(0, 0.5), Error);
}

}  // namespace
}  // namespace areo::numeric
