// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Where the uncertainty of a result comes from.
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "areo/measurement/result.hpp"

namespace areo::analysis {

/// What one input contributes to one quantity.
struct Contribution {
  uncertainty::Input input;  ///< its name, u, unit, shape, type, provenance, ...
  double share = 0;          ///< standard uncertainty of the result that is due to it, >= 0
  double fraction = 0;       ///< of the result's variance
};

/// Position of a quantity whose uncertainty can be taken apart.
/// @throws Error{domain} if there is no such quantity, or if it has no uncertainty
[[nodiscard]] std::size_t uncertain_quantity(const measurement::Result& result,
                                             std::string_view key);

/// The contributions to a quantity, largest first; inputs without any are left out. Squared shares
/// add up to the variance. With correlated inputs (none of today's results has any) they do not:
/// then each input of a pair counts half of what the pair adds or takes away, so that fractions
/// still add up to 1, and one of them may be below zero.
/// @throws Error{domain} as uncertain_quantity()
/// @source [gum] 5.1.2, 5.2.2
[[nodiscard]] std::vector<Contribution> budget(const measurement::Result& result,
                                               std::string_view key);

}  // namespace areo::analysis
