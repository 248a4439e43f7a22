#pragma once
// JSON as text that drives no terminal.
#include <nlohmann/json.hpp>
#include <string>

#include "areo/uncertainty/propagate.hpp"

namespace areo::text {

using Json = nlohmann::ordered_json;

/// One line; bytes that are not valid UTF-8 become U+FFFD, control characters escapes.
[[nodiscard]] std::string dump(const Json& j);
/// {"value", "standard_uncertainty", "expanded_uncertainty", "unit"}
[[nodiscard]] Json quantity_json(const uncertainty::Value& value, const std::string& unit);

}  // namespace areo::text
