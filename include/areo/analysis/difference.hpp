// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// How much two results differ, and how they err together: what they owe to the same inputs cancels.
#include <span>
#include <string_view>

#include "areo/measurement/result.hpp"

namespace areo::analysis {

/// What two results may owe to the same inputs.
enum class Common {
  ferment,  ///< everything: they are of one ferment
  /// Of two ferments: instruments and formulas. A reading, an amount, the method have an error of
  /// their own in each, whatever they are called.
  instruments,
};

/// Quantity `key` of `b` minus that of `a`. Inputs of the two results are the same where name,
/// unit, value, uncertainty, provenance and the thing that they are a property of are: the
/// calibration, the glass and the thermometer of one instrument, the original gravity and the
/// method of one ferment. They count with the difference of their shares, all others with both
/// shares. Two instruments share nothing, however alike; one that was calibrated anew shares its
/// glass and its meniscus, not its correction. Readings of their own must have names of their own.
/// @throws Error{domain} if a result has no such quantity, or correlated inputs (none of today's
///         results has any)
/// @source [gum] 5.1, 5.2: propagation through the joint model of both results
[[nodiscard]] uncertainty::Value difference(const measurement::Result& a,
                                            const measurement::Result& b, std::string_view key,
                                            Common common = Common::ferment);

/// Whether a gravity rose from one reading of a ferment to the next, which it never does by itself:
/// beyond the expanded uncertainty of the difference, in which what both readings share cancels.
/// @param change  difference() of the two
[[nodiscard]] bool has_risen(const uncertainty::Value& change);

/// What each input of a result contributes to one of its quantities, in the order of its inputs.
/// @throws Error{domain} as difference()
[[nodiscard]] std::span<const double> shares_of(const measurement::Result& r, std::string_view key);

/// Covariance of a quantity of `a` with one of `b`; the same inputs as for difference().
/// @throws Error{domain} as difference()
/// @source [gum] F.1.2.3
[[nodiscard]] double covariance(const measurement::Result& a, std::string_view key_of_a,
                                const measurement::Result& b, std::string_view key_of_b);

}  // namespace areo::analysis
