// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// JSON is built as a value, and becomes text once, by dump(): text that drives no terminal.
#include <nlohmann/json.hpp>
#include <optional>
#include <string>

#include "areo/core/moment.hpp"
#include "areo/text/extra_field.hpp"
#include "areo/uncertainty/propagate.hpp"

namespace areo::text {

using Json = nlohmann::ordered_json;

/// One line; bytes that are not valid UTF-8 become U+FFFD, control characters escapes.
[[nodiscard]] std::string dump(const Json& j);
/// A number, unrounded, or null; without a fraction an integer: 1 for 1.0.
[[nodiscard]] Json number_json(const std::optional<double>& number);
/// A text, or null if it is empty.
[[nodiscard]] Json text_json(const std::string& text);
/// A moment as a text, or null.
[[nodiscard]] Json moment_json(const std::optional<Moment>& moment);
/// The number of a record, yes or no; or null.
template <class T>
[[nodiscard]] Json or_null(const std::optional<T>& value) {
  return value ? Json(*value) : Json();
}
/// {"value", "standard_uncertainty", "expanded_uncertainty", "unit"}
[[nodiscard]] Json quantity_json(const uncertainty::Value& value, const std::string& unit);
/// Puts a word or a number under its key, where there is one.
void add_field(Json& to, const std::string& key, const ExtraField& field);

}  // namespace areo::text
