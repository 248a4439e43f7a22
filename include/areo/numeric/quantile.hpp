// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Quantiles and probabilities of the distributions that sampling and decisions rest on (GNU
// Scientific Library).

namespace areo::numeric {

/// Two-sided coverage factor: |T| <= k with probability p. Infinite degrees of freedom give the
/// normal distribution (p = 0.95 -> 1.960).
/// @throws Error{domain} unless 0 < p < 1 and degrees_of_freedom >= 1
[[nodiscard]] double student_t_coverage(double p, double degrees_of_freedom);

/// x below which a standard normal variable lies with probability p.
/// @throws Error{domain} unless 0 < p < 1
/// @check  p = 0.975 -> 1.959964
[[nodiscard]] double normal_quantile(double p);

/// Probability that a standard normal variable lies below x; infinities give 0 and 1.
/// @throws Error{domain} for NaN
/// @check  x = 1.959964 -> 0.975
[[nodiscard]] double normal_probability(double x);

/// x below which Student's t lies with probability p; normal for infinite degrees of freedom.
/// @throws Error{domain} unless 0 < p < 1 and degrees_of_freedom >= 1
/// @check  p = 0.975, 4 degrees of freedom -> 2.776
[[nodiscard]] double student_t_quantile(double p, double degrees_of_freedom);

/// Probability that Student's t lies below x; normal for infinite degrees of freedom.
/// @throws Error{domain} for NaN or degrees_of_freedom < 1
[[nodiscard]] double student_t_probability(double x, double degrees_of_freedom);

/// x below which a chi-squared variable lies with probability p.
/// @throws Error{domain} unless 0 < p < 1 and degrees_of_freedom > 0
[[nodiscard]] double chi_squared_quantile(double p, double degrees_of_freedom);

}  // namespace areo::numeric
