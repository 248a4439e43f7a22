// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/numeric/distance_regression.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <vector>

#include "areo/core/error.hpp"

namespace areo::numeric {
namespace {

using V = std::vector<double>;
constexpr double nan = std::numeric_limits<double>::quiet_NaN();

TEST(FitLineBoth, WithExactXIsTheOrdinaryLine) {
  const V x{0, 1, 3, 4};
  const V y{1, 2, 5, 5};
  const PolynomialFit both =
      fit_line_both(x, y, Covariance::diagonal(V{0, 0, 0, 0, 1, 2, 1, 2}), 2);
  const PolynomialFit own = fit_polynomial(x, y, Covariance::diagonal(V{1, 2, 1, 2}), 2, 1);
  for (std::size_t k = 0; k < 2; ++k) {
    EXPECT_NEAR(both.coefficients[k], own.coefficients[k], 1e-12);
    EXPECT_NEAR(both.covariance(k, k), own.covariance(k, k), 1e-12);
  }
  EXPECT_NEAR(both.chi_squared, own.chi_squared, 1e-12);
}

// Errors of x and y that go together along the line do not show: x + e and y + b e stay on it.
TEST(FitLineBoth, ErrorsAlongTheLineCost) {
  const V x{0, 1, 2};
  const V y{0, 2, 4};
  Covariance along = Covariance::diagonal(V{1, 1, 1, 3, 3, 3});
  for (std::size_t i = 0; i < 3; ++i) along.set(i, 3 + i, 2);  // y errs by 2 x and √5 of its own
  const PolynomialFit f = fit_line_both(x, y, along, 1);
  EXPECT_NEAR(f.coefficients[1], 2, 1e-9);
  EXPECT_NEAR(f.covariance(1, 1), 5 / 2.0, 1e-9);
}

// x and y in each other's place give the same line.
TEST(FitLineBoth, DoesNotPreferAnAxis) {
  const V x{0, 1, 2, 4};
  const V y{0.3, 1.9, 4.2, 7.7};
  const V u_x{0.2, 0.1, 0.3, 0.2};
  const V u_y{0.3, 0.4, 0.2, 0.1};
  Covariance xy{8};
  Covariance yx{8};
  for (std::size_t i = 0; i < 4; ++i) {
    const double together = (i % 2 == 0 ? 0.5 : -0.3) * u_x[i] * u_y[i];
    xy.set(i, i, u_x[i] * u_x[i]);
    xy.set(4 + i, 4 + i, u_y[i] * u_y[i]);
    xy.set(i, 4 + i, together);
    yx.set(i, i, u_y[i] * u_y[i]);
    yx.set(4 + i, 4 + i, u_x[i] * u_x[i]);
    yx.set(i, 4 + i, together);
  }
  const PolynomialFit f = fit_line_both(x, y, xy, 0);
  const PolynomialFit g = fit_line_both(y, x, yx, 0);
  EXPECT_NEAR(g.coefficients[1], 1 / f.coefficients[1], 1e-8);
  EXPECT_NEAR(g.coefficients[0], -f.coefficients[0] / f.coefficients[1], 1e-8);
  EXPECT_NEAR(g.chi_squared, f.chi_squared, 1e-8);
}

TEST(FitLineBoth, RefusesWhatCannotBeFitted) {
  const auto fit = [](const V& x, const V& y, const V& u) {
    return fit_line_both(x, y, Covariance::diagonal(u), 0);
  };
  EXPECT_THROW((void)fit(V{1, 2}, V{1, 2}, V{1, 1}), Error);
  EXPECT_THROW((void)fit(V{1, 1}, V{1, 2}, V{1, 1, 1, 1}), Error);
  EXPECT_THROW((void)fit(V{1, 2}, V{1, nan}, V{1, 1, 1, 1}), Error);
  EXPECT_THROW((void)fit(V{1, 2}, V{1, 2}, V{1, 1, 1, nan}), Error);
  EXPECT_THROW((void)fit(V{1, 2}, V{1, 2}, V{0, 0, 0, 0}), Error);
}

}  // namespace
}  // namespace areo::numeric
