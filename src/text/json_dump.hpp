// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// JSON as text that drives no terminal.
#include <nlohmann/json.hpp>
#include <optional>
#include <string>

#include "areo/uncertainty/propagate.hpp"

namespace areo::text {

using Json = nlohmann::ordered_json;

/// One line; bytes that are not valid UTF-8 become U+FFFD, control characters escapes.
[[nodiscard]] std::string dump(const Json& j);
/// A number, unrounded, or null; without a fraction an integer: 1 for 1.0.
[[nodiscard]] Json number_json(const std::optional<double>& number);
/// A text, or null if it is empty.
[[nodiscard]] Json text_json(const std::string& text);
/// {"value", "standard_uncertainty", "expanded_uncertainty", "unit"}
[[nodiscard]] Json quantity_json(const uncertainty::Value& value, const std::string& unit);

}  // namespace areo::text
