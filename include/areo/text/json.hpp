// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Words, numbers and lists as JSON. Bytes that are not valid UTF-8 become U+FFFD.
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace areo::text {

/// A JSON string with its quotes.
[[nodiscard]] std::string json_string(std::string_view text);
/// A number, unrounded, or null.
[[nodiscard]] std::string json_number(const std::optional<double>& number);
/// A list of strings.
[[nodiscard]] std::string json_list(const std::vector<std::string>& texts);

/// A word or a number for programs, beside the quantities.
struct ExtraField {
  std::string text;  ///< empty: nothing to say, an empty cell and no member
  bool number = false;
  [[nodiscard]] std::string json() const;
};

}  // namespace areo::text
