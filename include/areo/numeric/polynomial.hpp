// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Constant, straight line or parabola through values that may err together (GNU Scientific
// Library), its evaluation both ways, and the choice between the three.
#include <cstddef>
#include <span>
#include <string>
#include <vector>

#include "areo/numeric/covariance.hpp"

namespace areo::numeric {

/// A number and its standard uncertainty, in the same unit.
struct Estimate {
  double value = 0;
  double u = 0;
};

/// y = c0 + c1 (x - x0) + c2 (x - x0)². The covariance of the coefficients is the one that follows
/// from the stated covariance of y (not from the residuals); multiply it by residual_variance() for
/// data whose common uncertainty is unknown.
struct PolynomialFit {
  double x0 = 0;
  std::vector<double> coefficients;  ///< one to three
  Covariance covariance{0};          ///< of the coefficients
  double chi_squared = 0;            ///< weighted sum of squared residuals, rᵀ V⁻¹ r
  int degrees_of_freedom = 0;        ///< points minus coefficients

  [[nodiscard]] std::size_t degree() const { return coefficients.size() - 1; }
  [[nodiscard]] double at(double x) const;
  [[nodiscard]] double variance_at(double x) const;
  [[nodiscard]] double slope_at(double x) const;
  [[nodiscard]] double slope_variance_at(double x) const;
  /// chi_squared / degrees_of_freedom; NaN if there are no degrees of freedom.
  [[nodiscard]] double residual_variance() const;
};

/// Generalized least squares; for independent values this is weighted least squares with weights
/// 1/u² (Covariance::diagonal).
/// @param x,y    n values each; x with more different values than `degree`
/// @param v      covariance of y, n by n, positive definite
/// @param x0     where the powers of x count from; near the middle of x their coefficients are
///               nearly uncorrelated
/// @param degree 0, 1 or 2
/// @throws Error{domain} for other sizes, too few different x, values that are not finite, or a v
///         that is no covariance of uncertain values
/// @source [iso28037] clause 6; for values that err together clause 9 (its number from memory)
/// @check  the data set Pontius of [nist-strd]
[[nodiscard]] PolynomialFit fit_polynomial(std::span<const double> x, std::span<const double> y,
                                           const Covariance& v, double x0, std::size_t degree);

/// How much of each y the fit's value at a place is made of: w with fit.at(at) = Σ w y.
/// @param x,v,degree as of fit_polynomial(); @param at the place, inside or outside of x
/// @throws Error{domain} as fit_polynomial(), or if `at` is not finite
/// @check  the mean of two independent values, u = 1 and 2: w = 0.8 and 0.2
[[nodiscard]] std::vector<double> weights_at(std::span<const double> x, const Covariance& v,
                                             std::size_t degree, double at);

/// y at x; to the uncertainty of the fit adds that of x.
/// @param u_x standard uncertainty of x, >= 0, independent of the fit
/// @throws Error{domain} if x or u_x is not finite or u_x < 0
/// @source [iso28037] clause 11 (its number from memory)
/// @check  x = 3.5, u_x = 0.2 on the line of clause 6: 8.017, u = 0.406
[[nodiscard]] Estimate forward(const PolynomialFit& fit, double x, double u_x);

/// x between lo and hi at which the fit gives y; to the uncertainty of the fit adds that of y.
/// @param u_y   standard uncertainty of y, >= 0, independent of the fit
/// @param lo,hi where the fit may be used, lo < hi
/// @throws Error{domain} if y is not reached between lo and hi, if the slope there is not larger
///         than 1.96 of its standard uncertainties (then y does not tell x), or for numbers that
///         are not finite
/// @source [iso28037] clause 11 (its number from memory)
/// @check  y = 10.5, u_y = 0.5 on the line of clause 6: 4.913, u = 0.322
[[nodiscard]] Estimate inverse(const PolynomialFit& fit, double y, double u_y, double lo,
                               double hi);

/// A fit of the lowest degree that serves.
struct PolynomialChoice {
  PolynomialFit fit;
  std::string reason;      ///< why this degree, in words
  bool consistent = true;  ///< chi-squared is not above its 95 % point, or cannot be tested
};

/// Starts with the highest degree that x allows, at most `highest`, and leaves out the highest
/// coefficient as long as it is not larger than 1.96 of its standard uncertainties; this is the
/// same as asking whether chi-squared falls by more than its 95 % point for one degree of freedom.
/// @throws Error{domain} as fit_polynomial()
[[nodiscard]] PolynomialChoice choose_polynomial(std::span<const double> x,
                                                 std::span<const double> y, const Covariance& v,
                                                 double x0, std::size_t highest = 2);

}  // namespace areo::numeric
