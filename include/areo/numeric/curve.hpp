#pragma once
// A curve that is not linear in its parameters, through values that may err together (GNU
// Scientific Library).
#include <functional>
#include <span>
#include <vector>

#include "areo/numeric/covariance.hpp"

namespace areo::numeric {

/// y at x for given parameters.
using Curve = std::function<double(double x, std::span<const double> parameters)>;

struct CurveFit {
  std::vector<double> parameters;
  /// Of the parameters; follows from the stated covariance of y, as for PolynomialFit.
  Covariance covariance{0};
  double chi_squared = 0;  ///< weighted sum of squared residuals
  int degrees_of_freedom = 0;
  int steps = 0;

  /// chi_squared / degrees_of_freedom; NaN if there are no degrees of freedom.
  [[nodiscard]] double residual_variance() const;
};

/// Generalized least squares by Levenberg's and Marquardt's method in a trust region, with central
/// differences for the derivatives. Where the curve throws Error or gives no finite number during
/// the search, the step there is taken back.
/// @param x,y    n values each, finite, n not below the number of parameters
/// @param v      covariance of y, n by n, positive definite
/// @param start  one value per parameter, where the curve is finite at every x
/// @throws Error{domain} for other sizes, values that are not finite, a v that is no covariance, or
///         a curve that is not finite at the start; Error{no_convergence} if no least sum is found,
///         or if the values do not fix all parameters; anything else that the curve throws
/// @source [nist-strd] for its checks
/// @check  the data sets Rat43 and Chwirut2 of [nist-strd], from both starts, to six digits
[[nodiscard]] CurveFit fit_curve(const Curve& curve, std::span<const double> x,
                                 std::span<const double> y, const Covariance& v,
                                 std::span<const double> start);

}  // namespace areo::numeric
