// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Is one bottle really different from another, or is it the readings?
#include <optional>

#include "areo/uncertainty/propagate.hpp"

namespace areo::trend {

enum class Verdict {
  different,       ///< beyond the expanded uncertainty of the difference, 95 %
  same,            ///< with 95 %, no further apart than what somebody stated to be the same
  not_told_apart,  ///< neither: the readings are too coarse for this
};

struct Comparison {
  uncertainty::Value difference;
  Verdict verdict = Verdict::not_told_apart;
  /// A true difference of this size would be found in 95 of 100 such comparisons.
  double detectable = 0;
};

/// One pair out of many has its own 5 % of false alarms: of 20 pairs of equal bottles, one is
/// called different.
/// @param difference with u > 0 and what both share left out, as analysis::difference()
/// @param within     above zero: so near counts as the same; nothing: nobody said, and nothing is
/// @throws Error{domain} for other numbers, and those that are not finite
/// @source [schuirmann1987] the same within: two one-sided tests; from memory
[[nodiscard]] Comparison compare(const uncertainty::Value& difference,
                                 const std::optional<double>& within = std::nullopt);

}  // namespace areo::trend
