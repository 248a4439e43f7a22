// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Straight line through points whose x and y are both uncertain.
#include <span>

#include "areo/numeric/covariance.hpp"
#include "areo/numeric/polynomial.hpp"

namespace areo::numeric {

/// Line y = c0 + c1 (x - x0) for which the points have to be moved least, in x and in y, weighed
/// with their covariance. The points move to adjusted ones on the line; the covariance of the
/// coefficients is that of least squares through these, as in [iso28037] and [york2004]; it leaves
/// out how the adjustment itself depends on the data, a few per cent where u(x) rules.
/// @param x,y n >= 2 values each; x with at least two different values
/// @param v   covariance of x1 .. xn, y1 .. yn in this order, 2 n by 2 n; some of x may be exact
/// @param x0  where the intercept is the value of the line
/// @throws Error{domain} as fit_polynomial(), and if some combination y - c1 x is exact;
///         Error{no_convergence} after 200 steps: the points show no line
/// @source [iso28037] clause 7; with covariances clause 10
/// @check  Pearson's points with York's weights: 5.479910224 - 0.480533407 x
[[nodiscard]] PolynomialFit fit_line_both(std::span<const double> x, std::span<const double> y,
                                          const Covariance& v, double x0);

}  // namespace areo::numeric
