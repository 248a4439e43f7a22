// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// On which side of a limit does a quantity lie that cannot be negative? Never answered by its
// estimate alone.
//
// What was measured leaves a distribution: Student's t about the estimate, or a sample. A strength,
// a mass or a fall is no less than zero, so the part below zero is cut off and the rest made whole
// again: Bayes' theorem with a prior that is flat from zero on [jcgm106], as [iso11929] has it for
// counts of radiation. `below` and the upper bound follow from that. So near zero they are stricter
// than the measurement alone: an estimate of no alcohol, or of less than none, is no reason to
// be sure of a limit that the instrument cannot resolve.
//
// `above` and the lower bound take the measurement as it is: with zero as a wall, a limit close to
// it would be called exceeded because little room is left below, not because of what was read.
// Both ways take the stricter one, and for any true value of the quantity, on either side of the
// limit, the wrong verdict is found in no more than 1 - level of the measurements. Of those with a
// verdict, more may be wrong where true values crowd just beyond the limit: no rule helps there.
#include <cstddef>
#include <span>

#include "areo/uncertainty/propagate.hpp"

namespace areo::uncertainty {

/// Probability that the quantity, no less than zero, does not exceed the limit. For estimate y and
/// F, the distribution of Student's t with whole_degrees_of_freedom() (normal for infinitely many):
///     1 - F((y - limit) / u) / F(y / u),   nothing for a limit below zero
/// @param value u > 0
/// @param limit finite, in the unit of the value
/// @throws Error{domain} for numbers that are not finite, for u of zero: a result without
///         uncertainty is no measurement; and for an estimate so many u below zero that no
///         uncertainty explains it: the probability above zero rounds to nothing
/// @source [jcgm106] 6.2 and 7.2, [iso11929] (numbers and the latter from memory)
/// @check  0.45, u = 0.04, limit 0.50 -> 0.894;  0, u = 1, limit 1.96 -> 0.95
[[nodiscard]] double probability_below(const Value& value, double limit);
/// The same for a sample of the quantity (MonteCarloOutput::sample): the fraction of its values
/// from zero on.
/// @param sorted ascending, finite, some not below zero
[[nodiscard]] double probability_below(std::span<const double> sorted, double limit);

/// Width w of the guard band that the measurement alone would ask for: one-sided, 1.645 u at 95 %
/// for infinite degrees of freedom. An estimate of limit + w or more lies above the limit. One of
/// limit - w lies below it, far from zero; near zero that takes more.
/// @param level above 0.5, where the estimate alone would decide, to 0.9999
/// @throws Error{domain} as probability_below(), and for other levels
/// @source [jcgm106] 8.3 (its number from memory)
/// @check  u = 1, level 0.97725 -> 2.000; the risk of 2.3 % at w = 2 u in [ilac-g8]
[[nodiscard]] double guard_band(const Value& value, double level = 0.95);

/// One-sided limits of the quantity: with the stated probability it lies above `lower`, and with
/// the same probability below `upper`.
struct Bounds {
  double lower = 0;  ///< no less than zero
  double upper = 0;  ///< probability_below() is the level here
};
/// @throws Error{domain} as guard_band()
/// @check  0, u = 1 -> 0, 1.960; -1, u = 1 -> 0, 1.412; 10, u = 1 -> 8.355, 11.645
[[nodiscard]] Bounds bounds(const Value& value, double level = 0.95);
/// The same from a sample. A fraction of it is only known to the scatter of a count, √(p (1 - p) /
/// n); two of these are left as a margin.
/// @param sorted as probability_below(), with 100 / (1 - level) values from zero on, or more
/// @throws Error{domain} for fewer
[[nodiscard]] Bounds bounds(std::span<const double> sorted, double level = 0.95);
/// How many trials that takes, as far as the law of propagation foresees: some are below zero.
[[nodiscard]] std::size_t trials_for_bounds(const Value& value, double level = 0.95);

enum class Side {
  below,        ///< with at least the stated probability: Bounds::upper is not above the limit
  above,        ///< likewise: Bounds::lower is above it
  cannot_tell,  ///< the measurement is too coarse for this limit
};
struct Decision {
  Side side = Side::cannot_tell;
  double probability_below = 0;
  /// 1 - probability_below, or less where more is open than the measurement says.
  double probability_above = 0;
  Bounds bounds{};
};

/// Decides at a stated level of probability for each side.
/// @throws Error{domain} as guard_band()
/// @source [jcgm106] clause 8
[[nodiscard]] Decision decide(const Value& value, double limit, double level = 0.95);
/// @param sorted as bounds()
[[nodiscard]] Decision decide(std::span<const double> sorted, double limit, double level = 0.95);

}  // namespace areo::uncertainty
