#include "areo/numeric/curve.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <stdexcept>

#include "areo/core/error.hpp"
#include "areo/numeric/polynomial.hpp"

namespace areo::numeric {
namespace {

using Values = std::vector<double>;

const Values x{0, 1, 2, 3, 4, 5};
const Values line_start{0, 0};
double line(double at, std::span<const double> b) { return b[0] + b[1] * at; }
double decay(double at, std::span<const double> b) { return b[0] * std::exp(-b[1] * at); }

Covariance equal(double u) { return Covariance::diagonal(Values(x.size(), u)); }

Errc refused(const Curve& curve, const Values& places, const Values& y, const Covariance& v,
             const Values& start) {
  try {
    (void)fit_curve(curve, places, y, v, start);
  } catch (const Error& e) {
    return e.code;
  }
  ADD_FAILURE() << "accepted";
  return Errc::file;
}

// Linear in its parameters, so generalized least squares says the same.
TEST(CurveFit, OfALineIsTheLineThroughValuesThatErrTogether) {
  const Values y{1.1, 2.9, 5.2, 6.8, 9.1, 11.0};
  Covariance v = equal(0.2);
  v.set(0, 1, 0.02);
  v.set(3, 5, -0.01);
  const PolynomialFit expected = fit_polynomial(x, y, v, 0, 1);
  const CurveFit f = fit_curve(line, x, y, v, line_start);
  // 1e-9 of the values: the derivatives are differences.
  for (std::size_t i = 0; i < 2; ++i) {
    EXPECT_NEAR(f.parameters[i], expected.coefficients[i], 1e-9);
    for (std::size_t j = 0; j < 2; ++j)
      EXPECT_NEAR(f.covariance(i, j), expected.covariance(i, j), 1e-9);
  }
  EXPECT_NEAR(f.chi_squared, expected.chi_squared, 1e-9 * expected.chi_squared);
  EXPECT_EQ(f.degrees_of_freedom, 4);
}

TEST(CurveFit, FindsTheCurveThatMadeTheValues) {
  Values y;
  const Values truth{3, 0.7};
  for (const double at : x) y.push_back(decay(at, truth));
  const CurveFit f = fit_curve(decay, x, y, equal(0.1), Values{1, 0.1});
  EXPECT_NEAR(f.parameters[0], 3, 1e-8);
  EXPECT_NEAR(f.parameters[1], 0.7, 1e-8);
  EXPECT_NEAR(f.chi_squared, 0, 1e-12);
  EXPECT_GT(f.steps, 0);
}

TEST(CurveFit, WithoutDegreesOfFreedomHasNoResidualVariance) {
  const CurveFit f =
      fit_curve(line, Values{0, 1}, Values{1, 3}, Covariance::diagonal(Values{1, 1}), line_start);
  EXPECT_NEAR(f.parameters[1], 2, 1e-9);
  EXPECT_EQ(f.degrees_of_freedom, 0);
  EXPECT_TRUE(std::isnan(f.residual_variance()));
}

// The curve ends where b[0] is negative; the least sum lies within its range.
TEST(CurveFit, TakesBackAStepBeyondTheCurve) {
  const auto root = [](double at, std::span<const double> b) {
    if (b[0] < 0) throw Error{Errc::domain, "no root"};
    return std::sqrt(b[0]) * at;
  };
  Values y;
  for (const double at : x) y.push_back(0.1 * at);
  const CurveFit f = fit_curve(root, x, y, equal(0.1), Values{100});
  EXPECT_NEAR(f.parameters[0], 0.01, 1e-8);
}

TEST(CurveFit, RefusesSizesThatDoNotMatch) {
  EXPECT_EQ(refused(line, x, Values{1, 2}, equal(1), line_start), Errc::domain);
  EXPECT_EQ(refused(line, x, x, Covariance{2}, line_start), Errc::domain);
  EXPECT_EQ(refused(line, x, x, equal(1), Values{}), Errc::domain);
  EXPECT_EQ(refused(line, Values{1}, Values{1}, Covariance::diagonal(Values{1}), line_start),
            Errc::domain);
}

TEST(CurveFit, RefusesWhatIsNoNumber) {
  Values bad = x;
  bad[3] = std::nan("");
  EXPECT_EQ(refused(line, bad, x, equal(1), line_start), Errc::domain);
  EXPECT_EQ(refused(line, x, bad, equal(1), line_start), Errc::domain);
  EXPECT_EQ(refused(line, x, x, equal(1), Values{0, std::numeric_limits<double>::infinity()}),
            Errc::domain);
  EXPECT_EQ(refused(line, x, x, equal(0), line_start), Errc::domain);
  EXPECT_EQ(refused([](double, std::span<const double>) { return std::nan(""); }, x, x, equal(1),
                    line_start),
            Errc::domain);
}

TEST(CurveFit, SaysWhenAParameterIsLeftOpen) {
  const auto two_for_one = [](double at, std::span<const double> b) { return (b[0] + b[1]) * at; };
  EXPECT_EQ(refused(two_for_one, x, x, equal(1), Values{0.5, 0.2}), Errc::no_convergence);
}

TEST(CurveFit, LetsOtherExceptionsThrough) {
  int calls = 0;
  const auto broken = [&](double at, std::span<const double> b) {
    if (++calls > 20) throw std::runtime_error{"defect"};
    return line(at, b);
  };
  EXPECT_THROW((void)fit_curve(broken, x, x, equal(1), Values{5, 7}), std::runtime_error);
}

}  // namespace
}  // namespace areo::numeric
