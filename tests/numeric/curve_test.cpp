// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/numeric/curve.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <stdexcept>
#include <string>
#include <vector>

#include "areo/core/error.hpp"
#include "areo/numeric/polynomial.hpp"

namespace areo::numeric {
namespace {

using V = std::vector<double>;
using Parameters = std::span<const double>;
constexpr double nan = std::numeric_limits<double>::quiet_NaN();

double line(double x, Parameters b) { return b[0] + b[1] * x; }
double decay(double x, Parameters b) { return b[0] * std::exp(-b[1] * x); }

const V x{0, 1, 2, 3, 5};
const V y{10.1, 6.0, 3.8, 2.1, 0.9};
const V u{0.2, 0.1, 0.1, 0.05, 0.05};

CurveFit fit(const Curve& curve, const V& start, const V& values = y) {
  return fit_curve(curve, x, values, Covariance::diagonal(u), start);
}

Errc code_of(const Curve& curve, const V& start, const std::string& part) {
  try {
    (void)fit(curve, start);
  } catch (const Error& e) {
    EXPECT_NE(std::string{e.what()}.find(part), std::string::npos) << e.what();
    return e.code;
  }
  ADD_FAILURE() << "no error";
  return Errc::parse;
}

// Points on the curve: what is left is rounding, 1e-7 standard uncertainties at most.
TEST(FitCurve, ExactDecay) {
  V on;
  for (const double at : x) on.push_back(8 * std::exp(-0.4 * at));
  const CurveFit f = fit(decay, {1, 1}, on);
  for (const std::size_t j : {0U, 1U})
    EXPECT_NEAR(f.parameters[j], j == 0 ? 8 : 0.4, 1e-7 * std::sqrt(f.covariance(j, j)));
  EXPECT_LT(f.chi_squared, 1e-14);
  EXPECT_EQ(f.degrees_of_freedom, 3);
  EXPECT_GT(f.iterations, 0);
}

// A line is solved without steps by linear least squares, another way to the same numbers; the
// derivatives are differences, good to 10 digits.
TEST(FitCurve, SameAsLinearWhereTheCurveIsALine) {
  Covariance v = Covariance::diagonal(u);
  v.set(0, 1, 0.015);  // correlation 0.75
  v.set(3, 4, -0.002);
  const PolynomialFit p = fit_polynomial(x, y, v, 0, 1);
  const CurveFit f = fit_curve(line, x, y, v, V{1, 1});
  for (const std::size_t i : {0U, 1U}) {
    EXPECT_NEAR(f.parameters[i], p.coefficients[i], 1e-7 * std::sqrt(p.covariance(i, i)));
    for (const std::size_t j : {0U, 1U})
      EXPECT_NEAR(f.covariance(i, j) / p.covariance(i, j), 1, 1e-9);
  }
  EXPECT_NEAR(f.chi_squared / p.chi_squared, 1, 1e-9);
}

// Twice the same value with u each and correlation r count as one with
// u² (1 + r) / 2 [gum] 5.2.2.
TEST(FitCurve, CorrelationCounts) {
  const V place{0, 0};
  const V twice{3, 3};
  Covariance v = Covariance::diagonal(V{0.2, 0.2});
  v.set(0, 1, 0.5 * 0.04);
  const CurveFit f =
      fit_curve([](double, Parameters b) { return std::exp(b[0]); }, place, twice, v, V{1});
  EXPECT_NEAR(f.parameters[0], std::log(3), 1e-7 * 0.2);
  EXPECT_NEAR(std::sqrt(f.covariance(0, 0)), 0.2 * std::sqrt(0.75) / 3, 1e-9);
}

// The units of the parameters do not matter.
TEST(FitCurve, ParametersOfAnySize) {
  const CurveFit f = fit(decay, {5, 1});
  const auto odd = [](double at, Parameters b) { return 1e9 * b[0] * std::exp(-1e-9 * b[1] * at); };
  const CurveFit g = fit(odd, {5e-9, 1e9});
  EXPECT_NEAR(g.parameters[0] * 1e9 / f.parameters[0], 1, 1e-8);
  EXPECT_NEAR(g.parameters[1] * 1e-9 / f.parameters[1], 1, 1e-8);
  EXPECT_NEAR(g.covariance(0, 1) / f.covariance(0, 1), 1, 1e-7);
}

// As many points as parameters: the curve goes through them, and nothing tells the scatter.
TEST(FitCurve, ThroughAllPoints) {
  const CurveFit f = fit_curve(decay, V{0, 1}, V{4, 2}, Covariance::diagonal(V{1, 1}), V{1, 0.1});
  EXPECT_NEAR(f.parameters[1], std::log(2.0), 1e-7);
  EXPECT_EQ(f.degrees_of_freedom, 0);
  EXPECT_TRUE(std::isnan(f.residual_variance()));
}

// The first steps from here lead below zero, where this curve has no value.
// Chi-squared of large values is known to their rounding only. The fit may end as far from the
// solution as that hides, √(2 |r| 10 ε |y/u|), here 2e-4 of a standard uncertainty.
TEST(FitCurve, ValuesFarFromZero) {
  constexpr double far = 1e5;
  V lifted = y;
  for (double& value : lifted) value += far;
  const auto curve = [](double at, Parameters b) { return far + decay(at, b); };
  const auto near = fit(decay, {12, 0.7});
  const auto away = fit_curve(curve, x, lifted, Covariance::diagonal(u), V{12, 0.7});
  for (std::size_t j = 0; j < 2; ++j)
    EXPECT_NEAR(away.parameters[j], near.parameters[j], 1e-4 * std::sqrt(near.covariance(j, j)));
}

TEST(FitCurve, StepsBackFromWhereTheCurveEnds) {
  int ends = 0;
  const Curve root = [&](double at, Parameters b) {
    if (b[0] < 0) ++ends;
    return b[0] < 0 ? nan : b[1] * std::log1p(b[0] * at);
  };
  V on;
  for (const double at : x) on.push_back(2 * std::log1p(0.1 * at));
  const CurveFit f = fit(root, {5, 2}, on);
  EXPECT_GT(ends, 0) << "this test no longer tests what it says";
  EXPECT_NEAR(f.parameters[0], 0.1, 1e-7 * std::sqrt(f.covariance(0, 0)));
}

TEST(FitCurve, RefusesOtherSizes) {
  const auto v = [](std::size_t n) { return Covariance::diagonal(V(n, 1.0)); };
  EXPECT_THROW((void)fit_curve(line, V{1, 2}, V{1, 2, 3}, v(2), V{1, 1}), Error);
  EXPECT_THROW((void)fit_curve(line, V{1, 2, 3}, V{1, 2, 3}, v(2), V{1, 1}), Error);
  EXPECT_THROW((void)fit_curve(line, V{1}, V{1}, v(1), V{1, 1}), Error);  // too few points
  EXPECT_THROW((void)fit_curve(line, V{1}, V{1}, v(1), V{}), Error);
  EXPECT_THROW((void)fit_curve(line, V{}, V{}, v(0), V{}), Error);
}

TEST(FitCurve, RefusesWhatIsNotFinite) {
  const auto v = Covariance::diagonal(V{1, 1, 1});
  EXPECT_THROW((void)fit_curve(line, V{1, nan, 3}, V{1, 2, 3}, v, V{1, 1}), Error);
  EXPECT_THROW((void)fit_curve(line, V{1, 2, 3}, V{1, nan, 3}, v, V{1, 1}), Error);
  EXPECT_THROW((void)fit_curve(line, V{1, 2, 3}, V{1, 2, 3}, v, V{1, nan}), Error);
  EXPECT_THROW(
      (void)fit_curve(line, V{1, 2, 3}, V{1, 2, 3}, Covariance::diagonal(V{1, nan, 1}), V{1, 1}),
      Error);
  EXPECT_THROW(
      (void)fit_curve(line, V{1, 2, 3}, V{1, 2, 3}, Covariance::diagonal(V{1, 0, 1}), V{1, 1}),
      Error);
  EXPECT_EQ(code_of([](double, Parameters) { return nan; }, {1}, "starts from"), Errc::domain);
}

TEST(FitCurve, SaysWhatThePointsLeaveOpen) {
  EXPECT_EQ(code_of([](double at, Parameters b) { return b[0] * at; }, {1, 1}, "parameter 2"),
            Errc::domain);
  EXPECT_EQ(code_of([](double at, Parameters b) { return b[0] * b[1] * at; }, {1, 2}, "open"),
            Errc::domain);
}

// The less, the better: this curve fits best at infinity.
TEST(FitCurve, ReportsThatItDoesNotConverge) {
  EXPECT_EQ(code_of([](double, Parameters b) { return -std::exp(-b[0]); }, {1}, "steps"),
            Errc::no_convergence);
}

TEST(FitCurve, ExceptionsPassThroughUnchanged) {
  int calls = 0;
  const int at_the_start = static_cast<int>(x.size());
  for (const int bad : {0, at_the_start, at_the_start + 6, at_the_start + 40}) {
    calls = 0;
    EXPECT_THROW((void)fit(
                     [&](double at, Parameters b) {
                       if (calls++ == bad) throw std::out_of_range{"inside"};
                       return decay(at, b);
                     },
                     {1, 1}),
                 std::out_of_range)
        << bad;
  }
}

}  // namespace
}  // namespace areo::numeric
