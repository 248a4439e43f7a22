// SPDX-License-Identifier: GPL-3.0-or-later
// Parabolas: certified fits from tables/.
#include <gtest/gtest.h>

#include <cmath>
#include <vector>

#include "areo/numeric/polynomial.hpp"
#include "rows.hpp"

namespace areo::published {
namespace {

// [nist-strd] Pontius, certified to 15 digits; asked for: 9.
TEST(Pontius, CertifiedValuesToNineDigits) {
  std::vector<double> x;
  std::vector<double> y;
  for (const Row& r : rows_of("nist-strd-pontius")) {
    x.push_back(r.number("x"));
    y.push_back(r.number("y"));
  }
  ASSERT_EQ(x.size(), 40U);
  const auto v = numeric::Covariance::diagonal(std::vector<double>(x.size(), 1.0));
  const numeric::PolynomialFit f = numeric::fit_polynomial(x, y, v, 0, 2);
  const auto close = [](double value, double certified) {
    EXPECT_LT(std::abs(value / certified - 1), 1e-9) << certified;
  };
  close(f.coefficients[0], 0.673565789473684e-3);
  close(f.coefficients[1], 0.732059160401003e-6);
  close(f.coefficients[2], -0.316081871345029e-14);
  EXPECT_EQ(f.degrees_of_freedom, 37);
  close(f.chi_squared, 0.155761768796992e-5);
  const double s2 = f.residual_variance();
  close(std::sqrt(s2), 0.205177424076185e-3);
  close(std::sqrt(f.covariance(0, 0) * s2), 0.107938612033077e-3);
  close(std::sqrt(f.covariance(1, 1) * s2), 0.157817399981659e-9);
  close(std::sqrt(f.covariance(2, 2) * s2), 0.486652849992036e-16);
}

}  // namespace
}  // namespace areo::published
