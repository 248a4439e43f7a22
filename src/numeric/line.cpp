// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/numeric/line.hpp"

#include <cmath>
#include <limits>

#include "areo/numeric/polynomial.hpp"

namespace areo::numeric {

double LineFit::residual_variance() const {
  return degrees_of_freedom > 0 ? chi_squared / degrees_of_freedom
                                : std::numeric_limits<double>::quiet_NaN();
}

LineFit LineFit::centred() const {
  LineFit f = *this;
  if (!(var_slope > 0)) return f;
  const double shift = -covariance / var_slope;
  f.x0 = x0 + shift;
  f.intercept = at(f.x0);
  f.var_intercept = var_intercept + shift * covariance;  // the least there is along the line
  f.covariance = 0;
  return f;
}

LineFit fit_line(std::span<const double> x, std::span<const double> y, const Covariance& v,
                 double x0) {
  const PolynomialFit p = fit_polynomial(x, y, v, x0, 1);
  return {.x0 = x0,
          .intercept = p.coefficients[0],
          .slope = p.coefficients[1],
          .var_intercept = p.covariance(0, 0),
          .var_slope = p.covariance(1, 1),
          .covariance = p.covariance(0, 1),
          .chi_squared = p.chi_squared,
          .degrees_of_freedom = p.degrees_of_freedom};
}

LineFit fit_offset(std::span<const double> x, std::span<const double> y, const Covariance& v,
                   double x0) {
  const PolynomialFit p = fit_polynomial(x, y, v, x0, 0);
  return {.x0 = x0,
          .intercept = p.coefficients[0],
          .var_intercept = p.covariance(0, 0),
          .chi_squared = p.chi_squared,
          .degrees_of_freedom = p.degrees_of_freedom};
}

}  // namespace areo::numeric
