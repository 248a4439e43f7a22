// SPDX-License-Identifier: GPL-3.0-or-later
// Straight lines through points uncertain in x and y: published fits from tables/.
#include "areo/numeric/distance_regression.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <string>
#include <vector>

#include "areo/numeric/quantile.hpp"
#include "rows.hpp"

namespace areo::published {
namespace {

// u of x, then of y.
std::vector<double> uncertainties(const std::vector<Row>& rows, double (*u_x)(const Row&),
                                  double (*u_y)(const Row&)) {
  std::vector<double> u;
  for (const Row& r : rows) u.push_back(u_x(r));
  for (const Row& r : rows) u.push_back(u_y(r));
  return u;
}

numeric::PolynomialFit fit(const std::vector<Row>& rows, const numeric::Covariance& v) {
  std::vector<double> x;
  std::vector<double> y;
  for (const Row& r : rows) {
    x.push_back(r.number("x"));
    y.push_back(r.number("y"));
  }
  return numeric::fit_line_both(x, y, v, 0);
}

// [iso28037] clause 7.4, published to the digits used here; b = 2.159(7), so 2.159 is truncated.
TEST(Iso28037, UncertainInBoth) {
  const auto rows = rows_of("iso28037-gdr");
  const numeric::PolynomialFit f = fit(rows, numeric::Covariance::diagonal(uncertainties(
                                                 rows, [](const Row& r) { return r.number("u_x"); },
                                                 [](const Row& r) { return r.number("u_y"); })));
  EXPECT_NEAR(f.coefficients[0], 0.5788, 0.00005);
  EXPECT_NEAR(std::sqrt(f.covariance(0, 0)), 0.4764, 0.00005);
  EXPECT_NEAR(f.coefficients[1], 2.1597, 0.00005);
  EXPECT_NEAR(std::sqrt(f.covariance(1, 1)), 0.1355, 0.00005);
  EXPECT_NEAR(f.covariance(0, 1), -0.0577, 0.00005);
  EXPECT_NEAR(f.chi_squared, 2.743, 0.0005);
  EXPECT_EQ(f.degrees_of_freedom, 4);
  const numeric::Estimate low = numeric::forward(f, 3.5, 0.2);
  EXPECT_NEAR(low.value, 8.138, 0.0005);
  EXPECT_NEAR(low.u, 0.484, 0.0005);
  const numeric::Estimate high = numeric::forward(f, 4.5, 0.4);
  EXPECT_NEAR(high.value, 10.297, 0.0005);
  EXPECT_NEAR(high.u, 0.909, 0.0005);
  const numeric::Estimate x = numeric::inverse(f, 10.5, 0.5, 1.2, 5.9);
  EXPECT_NEAR(x.value, 4.593868316, 5e-9);  // recomputed, beside the table
  EXPECT_NEAR(x.u, 0.267773933, 5e-9);
}

// [iso28037] clause 10: x err together, y err together.
TEST(Iso28037, FullCovariance) {
  const auto rows = rows_of("iso28037-ggmr");
  const std::size_t n = rows.size();
  ASSERT_EQ(n, 7U);
  numeric::Covariance v{2 * n};
  for (std::size_t i = 0; i < n; ++i)
    for (std::size_t j = i; j < n; ++j) {
      v.set(i, j, rows[i].number("Ux_" + std::to_string(j + 1)));
      v.set(n + i, n + j, i == j ? 5 : 1);
    }
  const numeric::PolynomialFit f = fit(rows, v);
  EXPECT_NEAR(f.coefficients[0], 0.3424, 0.00005);
  EXPECT_NEAR(std::sqrt(f.covariance(0, 0)), 2.0569, 0.00005);
  EXPECT_NEAR(f.coefficients[1], 1.0012, 0.00005);
  EXPECT_NEAR(std::sqrt(f.covariance(1, 1)), 0.0090, 0.00005);
  EXPECT_NEAR(f.covariance(0, 1), -0.0129, 0.00005);
  EXPECT_NEAR(f.chi_squared, 1.772, 0.0005);
  EXPECT_EQ(f.degrees_of_freedom, 5);
  EXPECT_LT(f.chi_squared, numeric::chi_squared_quantile(0.95, f.degrees_of_freedom));
}

// [york2004], to the digits printed there and in the texts that use these points.
TEST(PearsonYork, PublishedValues) {
  const auto rows = rows_of("pearson-york");
  ASSERT_EQ(rows.size(), 10U);
  const numeric::PolynomialFit f =
      fit(rows, numeric::Covariance::diagonal(uncertainties(
                    rows, [](const Row& r) { return 1 / std::sqrt(r.number("w_x")); },
                    [](const Row& r) { return 1 / std::sqrt(r.number("w_y")); })));
  EXPECT_NEAR(f.coefficients[0], 5.47991022403, 5e-10);  // the iteration stops at 1e-10 u
  EXPECT_NEAR(f.coefficients[1], -0.48053340745, 5e-11);
  EXPECT_NEAR(f.residual_variance(), 1.483294149, 5e-10);
  EXPECT_NEAR(std::sqrt(f.covariance(0, 0)), 0.294970735, 1e-9);
  EXPECT_NEAR(std::sqrt(f.covariance(1, 1)), 0.0579850090, 5e-10);
}

// [pearson1901]: distances at right angles, all points alike.
TEST(PearsonYork, RightAngles) {
  const auto rows = rows_of("pearson-york");
  const numeric::PolynomialFit f =
      fit(rows, numeric::Covariance::diagonal(std::vector<double>(2 * rows.size(), 0.1)));
  EXPECT_NEAR(f.coefficients[0], 5.7840437745, 1e-9);
  EXPECT_NEAR(f.coefficients[1], -0.5455611975, 1e-9);
}

}  // namespace
}  // namespace areo::published
