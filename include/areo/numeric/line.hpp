// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Straight-line fit y = intercept + slope (x - x0) to values that may err together, as plain
// numbers; numeric/polynomial.hpp does the work.
#include <span>

#include "areo/numeric/covariance.hpp"

namespace areo::numeric {

/// Result of fit_line() or fit_offset(). The covariance is the one that follows from the stated
/// covariance of y (not from the residuals); multiply it by residual_variance() for the covariance
/// of data whose common uncertainty is unknown.
struct LineFit {
  double x0 = 0;  ///< where `intercept` is the value of the line
  double intercept = 0, slope = 0;
  double var_intercept = 0, var_slope = 0, covariance = 0;
  double chi_squared = 0;      ///< weighted sum of squared residuals, rᵀ V⁻¹ r
  int degrees_of_freedom = 0;  ///< points minus fitted parameters

  [[nodiscard]] double at(double x) const { return intercept + slope * (x - x0); }
  /// The same line about the place where intercept and slope are uncorrelated [gum] H.3.5.
  /// A fitted offset stays as it is.
  [[nodiscard]] LineFit centred() const;
  /// chi_squared / degrees_of_freedom; NaN if there are no degrees of freedom.
  [[nodiscard]] double residual_variance() const;
};

/// Generalized least squares; for independent values this is weighted least squares with weights
/// 1/u² (Covariance::diagonal).
/// @param x,y n >= 2 values each; x with at least two different values
/// @param v   covariance of y, n by n, positive definite
/// @throws    Error{domain} for other sizes, values that are not finite, or a v that is no
///            covariance of uncertain values
/// @source    [iso28037] clause 6; for values that err together clause 9 (its number from memory)
[[nodiscard]] LineFit fit_line(std::span<const double> x, std::span<const double> y,
                               const Covariance& v, double x0);
/// The same with the slope held at zero; for independent values the weighted mean of y. n >= 1.
[[nodiscard]] LineFit fit_offset(std::span<const double> x, std::span<const double> y,
                                 const Covariance& v, double x0);

}  // namespace areo::numeric
