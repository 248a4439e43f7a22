// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// A ferment against the end that somebody expects of it.
#include <optional>
#include <string>

#include "areo/trend/history.hpp"

namespace areo::trend {

/// What is asked of an end that was stated, of the last reading that counts; nothing where
/// something was added since.
/// @param expected  SG 20/20
/// @throws Error{inconsistent} as measurement::require_possible_end()
void require_possible_end(const batch::Batch& batch, const std::string& bottle,
                          const History& history, const std::optional<double>& expected);

/// Steady, but above what was expected by more than the last reading may be off.
[[nodiscard]] bool is_stuck(const History& history, const std::optional<double>& expected);

/// The last reading before a bottle is closed: of the drink, computed, and not odd.
/// @throws Error{inconsistent} if there is none, if it has no original gravity, or if something was
///         added since
[[nodiscard]] const batch::Point& last_before_closing(const batch::Batch& batch,
                                                      const History& history,
                                                      const std::string& bottle);

}  // namespace areo::trend
