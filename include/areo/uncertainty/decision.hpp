#pragma once
// On which side of a limit does a quantity lie? Never answered by its estimate alone.
#include <span>

#include "areo/uncertainty/propagate.hpp"

namespace areo::uncertainty {

/// Probability that the quantity does not exceed the limit: Student's t about the estimate, scaled
/// by u, with whole_degrees_of_freedom(); normal for infinitely many.
/// @param value u > 0
/// @param limit finite, in the unit of the value
/// @throws Error{domain} for numbers that are not finite, or u of zero: a result without
///         uncertainty is no measurement
/// @source [jcgm106] 7.2 (its number from memory)
/// @check  0.45, u = 0.04, limit 0.50 -> 0.894
[[nodiscard]] double probability_below(const Value& value, double limit);
/// The same for a sample of the quantity (MonteCarloOutput::sample): the fraction of its values.
/// @param sorted ascending, finite, not empty
[[nodiscard]] double probability_below(std::span<const double> sorted, double limit);

/// Width w of the guard band: an estimate of limit - w or less lies below the limit with the stated
/// probability, one of limit + w or more above it. One-sided: 1.645 u at 95 % for infinite degrees
/// of freedom.
/// @param level above 0.5, where the estimate alone would decide, to 0.9999
/// @throws Error{domain} as probability_below(), and for other levels
/// @source [jcgm106] 8.3 (its number from memory)
/// @check  u = 1, level 0.97725 -> 2.000; the risk of 2.3 % at w = 2 u in [ilac-g8]
[[nodiscard]] double guard_band(const Value& value, double level = 0.95);

enum class Side {
  below,        ///< with at least the stated probability
  above,        ///< likewise
  cannot_tell,  ///< the measurement is too coarse for this limit
};
struct Decision {
  Side side = Side::cannot_tell;
  double probability_below = 0;
  /// One-sided limits of the quantity: with the stated probability it lies above `lower`, and with
  /// the same probability below `upper`.
  double lower = 0, upper = 0;
};

/// Decides at a stated level of probability for each side.
/// @throws Error{domain} as guard_band()
/// @source [jcgm106] clause 8
[[nodiscard]] Decision decide(const Value& value, double limit, double level = 0.95);
/// The same from a sample. Its fraction is only known to the scatter of a count, √(p (1 - p) / n);
/// two of these are left as a margin.
/// @param sorted as probability_below(), with 100 / (1 - level) values or more
[[nodiscard]] Decision decide(std::span<const double> sorted, double limit, double level = 0.95);

}  // namespace areo::uncertainty
