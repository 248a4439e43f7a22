// SPDX-License-Identifier: GPL-3.0-or-later
// Nonlinear least squares: certified fits from tables/, from both starts that come with them.
#include "areo/numeric/curve.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

#include "rows.hpp"

namespace areo::published {
namespace {

using Parameters = std::span<const double>;
using V = std::vector<double>;

struct Certified {
  V parameters, standard_deviations;
  double residual_squares, residual_sd;
  int degrees_of_freedom;
};

// [nist-strd] certifies 11 digits; asked for: 7. The fit ends where it sees no more of chi-squared,
// 3e-8 √n of the certified standard deviations from the solution, and these are at most half of
// their parameter here.
void expect(const char* table, const numeric::Curve& curve, const V& start, const Certified& c) {
  V x;
  V y;
  for (const Row& r : rows_of(table)) {
    x.push_back(r.number("x"));
    y.push_back(r.number("y"));
  }
  const auto v = numeric::Covariance::diagonal(V(x.size(), 1.0));
  const numeric::CurveFit f = numeric::fit_curve(curve, x, y, v, start);
  const auto close = [](double value, double certified) {
    EXPECT_LT(std::abs(value / certified - 1), 1e-7) << certified;
  };
  close(f.chi_squared, c.residual_squares);
  EXPECT_EQ(f.degrees_of_freedom, c.degrees_of_freedom);
  close(std::sqrt(f.residual_variance()), c.residual_sd);
  for (std::size_t j = 0; j < start.size(); ++j) {
    close(f.parameters[j], c.parameters[j]);
    close(std::sqrt(f.covariance(j, j) * f.residual_variance()), c.standard_deviations[j]);
  }
}

double sigmoid(double x, Parameters b) {
  return b[0] / std::pow(1 + std::exp(b[1] - b[2] * x), 1 / b[3]);
}
const Certified rat43{{6.9964151270e+02, 5.2771253025e+00, 7.5962938329e-01, 1.2792483859e+00},
                      {1.6302297817e+01, 2.0828735829e+00, 1.9566123451e-01, 6.8761936385e-01},
                      8.7864049080e+03,
                      2.8262414662e+01,
                      11};

TEST(Rat43, FromAfar) { expect("nist-strd-rat43", sigmoid, {100, 10, 1, 1}, rat43); }
TEST(Rat43, FromNear) { expect("nist-strd-rat43", sigmoid, {700, 5, 0.75, 1.3}, rat43); }

double decay(double x, Parameters b) { return std::exp(-b[0] * x) / (b[1] + b[2] * x); }
const Certified chwirut2{{1.6657666537e-01, 5.1653291286e-03, 1.2150007096e-02},
                         {3.8303286810e-02, 6.6621605126e-04, 1.5304234767e-03},
                         5.1304802941e+02,
                         3.1717133040e+00,
                         51};

TEST(Chwirut2, FromAfar) { expect("nist-strd-chwirut2", decay, {0.1, 0.01, 0.02}, chwirut2); }
TEST(Chwirut2, FromNear) { expect("nist-strd-chwirut2", decay, {0.15, 0.008, 0.010}, chwirut2); }

}  // namespace
}  // namespace areo::published
