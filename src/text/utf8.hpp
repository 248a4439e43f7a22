// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Where a character of a text ends, and where a text is not valid UTF-8.
#include <cstddef>
#include <string_view>

namespace areo::text {

/// Bytes of the character that the text begins with; 0 if it is not valid UTF-8.
/// @param text  not empty
[[nodiscard]] std::size_t utf8_length(std::string_view text);
/// The character itself.
/// @param text  with one at its beginning
[[nodiscard]] char32_t utf8_character(std::string_view text);

}  // namespace areo::text
