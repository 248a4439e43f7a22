#pragma once
// Weighted straight-line fit y = intercept + slope (x - x0) (GNU Scientific Library).
#include <span>

namespace areo::numeric {

/// Result of fit_line() or fit_offset(). The covariance is the one that follows from the stated
/// standard uncertainties of y (not from the residuals); multiply it by residual_variance() for
/// the covariance of data whose common uncertainty is unknown.
struct LineFit {
  double x0 = 0;  ///< where `intercept` is the value of the line
  double intercept = 0, slope = 0;
  double var_intercept = 0, var_slope = 0, covariance = 0;
  double chi_squared = 0;      ///< weighted sum of squared residuals
  int degrees_of_freedom = 0;  ///< points minus fitted parameters

  [[nodiscard]] double at(double x) const { return intercept + slope * (x - x0); }
  /// chi_squared / degrees_of_freedom; NaN if there are no degrees of freedom.
  [[nodiscard]] double residual_variance() const;
};

/// Weighted mean of x: with it as x0 intercept and slope are uncorrelated [gum] H.3.5.
[[nodiscard]] double weighted_centre(std::span<const double> x, std::span<const double> u);

/// Weighted least squares with weights 1/u².
/// @param x,y,u same length n >= 2; x with at least two different values; u > 0
/// @throws      Error{domain} for other lengths, values that are not finite, or u <= 0
/// @source      [iso28037] clause 6
[[nodiscard]] LineFit fit_line(std::span<const double> x, std::span<const double> y,
                               std::span<const double> u, double x0);
/// The same with the slope held at zero: the weighted mean of y. n >= 1.
[[nodiscard]] LineFit fit_offset(std::span<const double> x, std::span<const double> y,
                                 std::span<const double> u, double x0);

}  // namespace areo::numeric
