#pragma once
// Quantiles of the distributions that decisions rest on (GNU Scientific Library).

namespace areo::numeric {

/// Two-sided coverage factor: |T| <= k with probability p. Infinite degrees of freedom give the
/// normal distribution (p = 0.95 -> 1.960).
/// @throws Error{domain} unless 0 < p < 1 and degrees_of_freedom >= 1
[[nodiscard]] double student_t_coverage(double p, double degrees_of_freedom);

/// x below which a chi-squared variable lies with probability p.
/// @throws Error{domain} unless 0 < p < 1 and degrees_of_freedom > 0
[[nodiscard]] double chi_squared_quantile(double p, double degrees_of_freedom);

}  // namespace areo::numeric
