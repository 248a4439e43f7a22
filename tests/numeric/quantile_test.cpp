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

// Chi-squared, 95 % point: common statistical tables, from memory.
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
}

}  // namespace
}  // namespace areo::numeric
