// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// What a ferment's history says, for programs.
#include <optional>
#include <string>

#include "areo/trend/history.hpp"
#include "areo/trend/passing.hpp"

namespace areo::wording {

/// All of it but its points: {"trend", "bottle", "state", ...}.
/// @param expected  the end that was stated, SG 20/20
[[nodiscard]] std::string trend_json(const batch::Batch& batch, const std::string& bottle,
                                     const trend::History& history,
                                     const std::optional<double>& expected,
                                     const std::optional<trend::Passing>& passing);

}  // namespace areo::wording
