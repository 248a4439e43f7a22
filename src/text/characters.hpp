// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Characters as they are in every language's settings: those of <cctype> ask the locale.
#include <string_view>

namespace areo::text {

[[nodiscard]] constexpr bool is_digit(char c) noexcept { return c >= '0' && c <= '9'; }

inline constexpr std::string_view blanks = " \t";

[[nodiscard]] constexpr std::string_view trimmed(std::string_view text,
                                                 std::string_view spaces = blanks) noexcept {
  const auto first = text.find_first_not_of(spaces);
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(spaces) - first + 1);
}

}  // namespace areo::text
