// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/numeric/polynomial.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <string>
#include <vector>

#include "areo/core/error.hpp"

namespace areo::numeric {
namespace {

using V = std::vector<double>;
constexpr double nan = std::numeric_limits<double>::quiet_NaN();

PolynomialFit fit(const V& x, const V& y, double u, double x0, std::size_t degree) {
  return fit_polynomial(x, y, Covariance::diagonal(V(x.size(), u)), x0, degree);
}

TEST(FitPolynomial, ExactParabola) {
  // 1 + 2 d + 3 d² with d = x - 10.
  const PolynomialFit f = fit(V{9, 10, 11, 12}, V{2, 1, 6, 17}, 0.1, 10, 2);
  EXPECT_NEAR(f.coefficients[0], 1, 1e-12);
  EXPECT_NEAR(f.coefficients[1], 2, 1e-12);
  EXPECT_NEAR(f.coefficients[2], 3, 1e-12);
  EXPECT_NEAR(f.at(13), 34, 1e-11);
  EXPECT_NEAR(f.slope_at(13), 20, 1e-11);
  EXPECT_NEAR(f.chi_squared, 0, 1e-18);
  EXPECT_EQ(f.degrees_of_freedom, 1);
  EXPECT_EQ(f.degree(), 2U);
}

// Three points at -1, 0, 1 with u: c2 = (y- - 2 y0 + y+) / 2, so u² (1 + 4 + 1) / 4; c1 = (y+ - y-)
// / 2, so u² / 2; and the value at a point is that point's.
TEST(FitPolynomial, UncertaintiesByHand) {
  const PolynomialFit f = fit(V{-1, 0, 1}, V{1, 0, 2}, 0.2, 0, 2);
  EXPECT_NEAR(f.covariance(2, 2), 0.04 * 1.5, 1e-14);
  EXPECT_NEAR(f.slope_variance_at(0), 0.04 / 2, 1e-14);
  EXPECT_NEAR(f.slope_variance_at(1), 0.04 / 2 + 4 * 0.04 * 1.5, 1e-14);
  for (const double x : {-1.0, 0.0, 1.0}) EXPECT_NEAR(f.variance_at(x), 0.04, 1e-14);
}

TEST(FitPolynomial, RefusesWhatCannotBeFitted) {
  EXPECT_THROW((void)fit(V{1, 2, 3, 4}, V{1, 2, 3, 4}, 1, 0, 3), Error);
  EXPECT_THROW((void)fit(V{1, 2, 2}, V{1, 2, 3}, 1, 0, 2), Error);
  EXPECT_THROW((void)fit(V{}, V{}, 1, 0, 0), Error);
  EXPECT_THROW((void)fit(V{1, 2}, V{1, nan}, 1, 0, 1), Error);
  EXPECT_THROW((void)fit(V{1, 2}, V{1, 2}, 1, nan, 1), Error);
  EXPECT_THROW((void)fit(V{1, 2}, V{1, 2}, 0, 0, 1), Error);
}

TEST(Inverse, UndoesForward) {
  const PolynomialFit f = fit(V{0, 1, 2, 3}, V{0, 1.5, 4, 7.5}, 0.1, 1, 2);
  const Estimate there = forward(f, 2.5, 0);
  const Estimate back = inverse(f, there.value, 0, 1, 3);
  EXPECT_NEAR(back.value, 2.5, 1e-12);
  EXPECT_NEAR(back.u, there.u / f.slope_at(2.5), 1e-12);
  // The uncertainty of what goes in is on top.
  EXPECT_NEAR(forward(f, 2.5, 0.3).u, std::hypot(there.u, 0.3 * f.slope_at(2.5)), 1e-12);
  EXPECT_NEAR(inverse(f, there.value, 0.4, 1, 3).u, std::hypot(there.u, 0.4) / f.slope_at(2.5),
              1e-12);
}

TEST(Inverse, RefusesWhatDoesNotTell) {
  const PolynomialFit line = fit(V{0, 1, 2}, V{0, 1, 2}, 0.1, 1, 1);
  EXPECT_THROW((void)inverse(line, 5, 0, 0, 2), Error);  // beyond the range
  EXPECT_THROW((void)inverse(line, 1, 0, 2, 0), Error);
  EXPECT_THROW((void)inverse(line, nan, 0, 0, 2), Error);
  EXPECT_THROW((void)inverse(line, 1, -1, 0, 2), Error);
  EXPECT_THROW((void)inverse(line, 1, nan, 0, 2), Error);
  EXPECT_THROW((void)forward(line, nan, 0), Error);
  EXPECT_THROW((void)forward(line, 1, nan), Error);
  const PolynomialFit flat = fit(V{0, 1, 2}, V{0, 1, 2}, 10, 1, 1);
  try {
    (void)inverse(flat, 1, 0, 0, 2);
    ADD_FAILURE();
  } catch (const Error& e) {
    EXPECT_NE(std::string{e.what()}.find("does not tell"), std::string::npos);
  }
}

TEST(WeightsAt, OfAMean) {
  const V w = weights_at(V{5, 7}, Covariance::diagonal(V{1, 2}), 0, 6);
  ASSERT_EQ(w.size(), 2U);
  EXPECT_NEAR(w[0], 0.8, 1e-14);  // 1/1² : 1/2²
  EXPECT_NEAR(w[1], 0.2, 1e-14);
}

// Three alike on a line: 1/3 at their middle; at an end 1/3 + 1/2, 1/3, 1/3 - 1/2.
TEST(WeightsAt, OfALine) {
  const auto v = Covariance::diagonal(V{3, 3, 3});
  for (const double w : weights_at(V{0, 1, 2}, v, 1, 1)) EXPECT_NEAR(w, 1.0 / 3, 1e-14);
  const V end = weights_at(V{0, 1, 2}, v, 1, 2);
  EXPECT_NEAR(end[0], -1.0 / 6, 1e-14);
  EXPECT_NEAR(end[1], 1.0 / 3, 1e-14);
  EXPECT_NEAR(end[2], 5.0 / 6, 1e-14);
}

TEST(WeightsAt, GiveTheValueOfTheFit) {
  const V x{1, 2, 4, 5};
  const V y{0.3, -0.2, 0.9, 1.7};
  auto v = Covariance::diagonal(V{0.2, 0.1, 0.3, 0.2});
  v.set(0, 2, 0.01);
  v.set(1, 3, 0.005);
  for (std::size_t degree = 0; degree < 3; ++degree) {
    const PolynomialFit f = fit_polynomial(x, y, v, 2, degree);
    for (const double at : {0.0, 3.3, 9.0}) {
      const V w = weights_at(x, v, degree, at);
      double sum = 0;
      for (std::size_t i = 0; i < y.size(); ++i) sum += w[i] * y[i];
      EXPECT_NEAR(sum, f.at(at), 1e-11) << degree << ' ' << at;  // rounding of a parabola far out
    }
  }
}

TEST(WeightsAt, RefusesWhatIsNoNumber) {
  const auto v = Covariance::diagonal(V{1, 1});
  EXPECT_THROW((void)weights_at(V{0, 1}, v, 1, std::nan("")), Error);
  EXPECT_THROW((void)weights_at(V{0, std::nan("")}, v, 1, 0), Error);
  EXPECT_THROW((void)weights_at(V{1, 1}, v, 1, 0), Error);
}

PolynomialChoice choose(const V& x, const V& y, double u) {
  return choose_polynomial(x, y, Covariance::diagonal(V(x.size(), u)), 0);
}

TEST(ChoosePolynomial, TakesWhatThePointsSupport) {
  const V x{-2, -1, 0, 1, 2};
  EXPECT_EQ(choose(x, V{4, 1, 0, 1, 4}, 0.1).fit.degree(), 2U);
  EXPECT_EQ(choose(x, V{-2, -1, 0, 1, 2}, 0.1).fit.degree(), 1U);
  EXPECT_EQ(choose(x, V{0.1, -0.1, 0, -0.1, 0.1}, 0.1).fit.degree(), 0U);
  EXPECT_EQ(choose(V{1}, V{3}, 0.1).fit.degree(), 0U);
  EXPECT_EQ(choose(V{1, 2}, V{3, 5}, 0.1).fit.degree(), 1U);
}

// A slope of 1.96 u: u(slope) = u / √10 over these places.
TEST(ChoosePolynomial, AtTheEdge) {
  const V x{-2, -1, 0, 1, 2};
  const auto line = [&](double slope) {
    V y;
    for (const double at : x) y.push_back(slope * at);
    return choose(x, y, std::sqrt(10.0)).fit.degree();
  };
  EXPECT_EQ(line(1.959), 0U);
  EXPECT_EQ(line(1.961), 1U);
}

TEST(ChoosePolynomial, SaysWhy) {
  const PolynomialChoice line = choose(V{-2, -1, 0, 1, 2}, V{-2, -1, 0, 1, 2}, 0.1);
  EXPECT_NE(line.reason.find("curvature"), std::string::npos);
  EXPECT_NE(line.reason.find("left out; slope +1 ± 0.062: significant, used"), std::string::npos)
      << line.reason;
  EXPECT_TRUE(line.consistent);
  const PolynomialChoice odd = choose(V{0, 1, 2, 3, 4, 5}, V{0, 1, -1, 1, -1, 0}, 0.1);
  EXPECT_FALSE(odd.consistent);
  EXPECT_NE(odd.reason.find("scatter more"), std::string::npos);
}

}  // namespace
}  // namespace areo::numeric
