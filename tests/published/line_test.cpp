// SPDX-License-Identifier: GPL-3.0-or-later
// Straight lines: certified and published fits from tables/.
#include "areo/numeric/line.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

#include "areo/numeric/polynomial.hpp"
#include "areo/numeric/quantile.hpp"
#include "rows.hpp"

namespace areo::published {
namespace {

struct Columns {
  std::vector<double> x, y, u;
  [[nodiscard]] numeric::LineFit line(double x0) const {
    return numeric::fit_line(x, y, numeric::Covariance::diagonal(u), x0);
  }
};

Columns read(const char* name, const char* x, const char* y, const char* u = nullptr) {
  Columns c;
  for (const Row& r : rows_of(name)) {
    c.x.push_back(r.number(x));
    c.y.push_back(r.number(y));
    c.u.push_back(u != nullptr ? r.number(u) : 1);
  }
  return c;
}

// Agreement in significant digits, -log10 |relative error|.
double digits(double value, double certified) {
  const double error = std::abs(value - certified) / std::abs(certified);
  return error == 0 ? 17 : -std::log10(error);
}

// [nist-strd] Norris, certified to 15 digits; asked for: 9.
TEST(Norris, CertifiedValuesToNineDigits) {
  const Columns c = read("nist-strd-norris", "x", "y");
  ASSERT_EQ(c.x.size(), 36U);
  const numeric::LineFit f = c.line(0);
  EXPECT_GE(digits(f.intercept, -0.262323073774029), 9);
  EXPECT_GE(digits(f.slope, 1.00211681802045), 9);
  EXPECT_EQ(f.degrees_of_freedom, 34);
  EXPECT_GE(digits(f.chi_squared, 26.6173985294224), 9);
  const double s2 = f.residual_variance();
  EXPECT_GE(digits(std::sqrt(s2), 0.884796396144373), 9);
  EXPECT_GE(digits(std::sqrt(f.var_intercept * s2), 0.232818234301152), 9);
  EXPECT_GE(digits(std::sqrt(f.var_slope * s2), 0.429796848199937e-3), 9);
}

// The same line about the centre: correlation vanishes, the line does not move.
TEST(Norris, CentredFitIsTheSameLine) {
  const Columns c = read("nist-strd-norris", "x", "y");
  const numeric::LineFit f = c.line(0).centred();
  EXPECT_GE(digits(f.at(0), -0.262323073774029), 9);
  EXPECT_GE(digits(f.slope, 1.00211681802045), 9);
  const numeric::LineFit anew = c.line(f.x0);
  EXPECT_NEAR(anew.covariance / std::sqrt(anew.var_intercept * anew.var_slope), 0, 1e-12);
  EXPECT_GE(digits(f.intercept, anew.intercept), 12);
  EXPECT_GE(digits(f.var_intercept, anew.var_intercept), 9);
}

// [iso28037] clause 6, published to the digits used here.
TEST(Iso28037, EqualKnownUncertainties) {
  const Columns c = read("iso28037-wls-equal", "x", "y", "u_y");
  const numeric::LineFit f = c.line(0);
  EXPECT_NEAR(f.intercept, 1.867, 0.0005);
  EXPECT_NEAR(std::sqrt(f.var_intercept), 0.465, 0.0005);
  EXPECT_NEAR(f.slope, 1.757, 0.0005);
  EXPECT_NEAR(std::sqrt(f.var_slope), 0.120, 0.0005);
  EXPECT_NEAR(f.covariance, -0.050, 0.0005);
  EXPECT_NEAR(f.chi_squared, 1.665, 0.0005);
  EXPECT_EQ(f.degrees_of_freedom, 4);
  EXPECT_LT(f.chi_squared, numeric::chi_squared_quantile(0.95, f.degrees_of_freedom));
}

// [iso28037]: values of that line and back, published to the digits used here.
TEST(Iso28037, ForwardAndInverse) {
  const Columns c = read("iso28037-wls-equal", "x", "y", "u_y");
  const numeric::PolynomialFit f =
      numeric::fit_polynomial(c.x, c.y, numeric::Covariance::diagonal(c.u), 0, 1);
  const numeric::Estimate low = numeric::forward(f, 3.5, 0.2);
  EXPECT_NEAR(low.value, 8.017, 0.0005);
  EXPECT_NEAR(low.u, 0.406, 0.0005);
  const numeric::Estimate high = numeric::forward(f, 4.5, 0.4);
  EXPECT_NEAR(high.value, 9.774, 0.0005);
  EXPECT_NEAR(high.u, 0.742, 0.0005);
  const numeric::Estimate x = numeric::inverse(f, 10.5, 0.5, 1, 6);
  EXPECT_NEAR(x.value, 4.913, 0.0005);
  EXPECT_NEAR(x.u, 0.322, 0.0005);
}

// [iso28037] annex E: the data are of one unknown uncertainty, taken from the residuals.
TEST(Iso28037, UnknownScaleOfUncertainty) {
  const Columns c = read("iso28037-wls-unknown-scale", "x", "y");
  const numeric::LineFit f = c.line(0);
  EXPECT_NEAR(f.intercept, 1.172, 0.0005);
  EXPECT_NEAR(f.slope, 1.964, 0.0005);
  EXPECT_NEAR(f.chi_squared, 0.116, 0.0005);
  EXPECT_NEAR(std::sqrt(f.residual_variance()), 0.171, 0.0005);
  EXPECT_NEAR(std::sqrt(f.var_slope * f.residual_variance()), 0.041, 0.0005);
}

// [gum] H.3: calibration of a thermometer.
TEST(GumH3, ThermometerCorrection) {
  const Columns c = read("gum-h3-thermometer", "t_degC", "b_degC");
  ASSERT_EQ(c.x.size(), 11U);
  const numeric::LineFit f = c.line(20);
  const double s2 = f.residual_variance();
  EXPECT_NEAR(f.intercept, -0.1712, 0.00005);
  EXPECT_NEAR(std::sqrt(f.var_intercept * s2), 0.0029, 0.00005);
  EXPECT_NEAR(f.slope, 0.00218, 0.000005);
  EXPECT_NEAR(std::sqrt(f.var_slope * s2), 0.00067, 0.000005);
  EXPECT_NEAR(f.covariance / std::sqrt(f.var_intercept * f.var_slope), -0.930, 0.0005);
  EXPECT_NEAR(std::sqrt(s2), 0.0035, 0.00005);
  EXPECT_NEAR(f.at(30), -0.1494, 0.00005);
  const double u2 = s2 * (f.var_intercept + 100 * f.var_slope + 20 * f.covariance);
  EXPECT_NEAR(std::sqrt(u2), 0.0041, 0.00005);
}

// [gum] H.3.5: about the mean reading intercept and slope are uncorrelated.
TEST(GumH3, AboutTheMeanReading) {
  const Columns c = read("gum-h3-thermometer", "t_degC", "b_degC");
  const numeric::LineFit f = c.line(0).centred();
  EXPECT_NEAR(f.x0, 24.0085, 0.0001);
  EXPECT_NEAR(f.intercept, -0.1625, 0.00005);
  EXPECT_NEAR(std::sqrt(f.var_intercept * f.residual_variance()), 0.0011, 0.00005);
}

}  // namespace
}  // namespace areo::published
