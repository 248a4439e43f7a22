// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// What a ferment's history says, for programs.
#include <functional>
#include <optional>
#include <string>

#include "areo/trend/history.hpp"
#include "areo/trend/passing.hpp"

namespace areo::wording {

/// Its samples as each_point_json(), then what they say: {"trend", "bottle", "state", ...}.
/// @param expected  the end that was stated, SG 20/20
/// @param line      takes each
void each_trend_json(batch::Batch& batch, const std::string& bottle, const trend::History& history,
                     const std::optional<double>& expected,
                     const std::optional<trend::Passing>& passing,
                     const std::function<void(const std::string&)>& line);

}  // namespace areo::wording
