// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Nonlinear least squares: a curve with unknown parameters through values that may err together
// (trust region of the GNU Scientific Library).
#include <functional>
#include <span>
#include <vector>

#include "areo/numeric/covariance.hpp"

namespace areo::numeric {

/// Value of a curve at x. A value that is not finite says that the curve does not reach there with
/// these parameters.
using Curve = std::function<double(double x, std::span<const double> parameters)>;

/// The covariance of the parameters is the one that follows from the stated covariance of y (not
/// from the residuals), with the curve taken as straight about the solution; multiply it by
/// residual_variance() for data whose common uncertainty is unknown.
struct CurveFit {
  std::vector<double> parameters;
  Covariance covariance{0};    ///< of the parameters
  double chi_squared = 0;      ///< weighted sum of squared residuals, rᵀ V⁻¹ r
  int degrees_of_freedom = 0;  ///< points minus parameters
  int iterations = 0;          ///< steps from the start

  /// chi_squared / degrees_of_freedom; NaN if there are no degrees of freedom.
  [[nodiscard]] double residual_variance() const;
};

/// Parameters for which chi-squared is least near the start. Ends when none of them is further than
/// 1e-7 of its standard uncertainty from the solution, or as near as rounding of y and of
/// chi-squared lets it see. There may be other minima elsewhere: a start in sight of the solution
/// is the caller's part.
/// @param curve  smooth in its parameters. An exception that it throws reaches the caller
///               unchanged. A step to where it is not finite is taken back and tried shorter.
/// @param x,y    n values each, as many as parameters or more
/// @param v      covariance of y, n by n, positive definite; for independent values
///               Covariance::diagonal
/// @param start  one value per parameter; their sizes set the steps of numerical derivatives
/// @param most_steps  after which it is given up; about 10 do from a start in sight, 25 for Rat43
///               from afar
/// @throws Error{domain} for other sizes, values that are not finite, a v that is no covariance of
///         uncertain values, a curve that is not finite at the start or beside the solution, and
///         points that leave a parameter, or a combination of them, open;
///         Error{no_convergence} if so many steps do not get there, or if no step leads on
/// @source [gum] H.3 for a line; the covariance as for lines in [iso28037] clause 9
/// @check  the data sets Rat43 and Chwirut2 of [nist-strd]
[[nodiscard]] CurveFit fit_curve(const Curve& curve, std::span<const double> x,
                                 std::span<const double> y, const Covariance& v,
                                 std::span<const double> start, int most_steps = 200);

}  // namespace areo::numeric
