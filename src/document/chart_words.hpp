// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Texts in a drawing: how wide they are, and how they fit.
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace areo::document {

/// All measures of a chart are in units of its own; text is so high, and its lines are so far
/// apart.
inline constexpr double font_size = 13, line_height = 16;

/// About, and rather too much: nobody knows the reader's font.
[[nodiscard]] double text_width(std::string_view utf8);
/// With an ellipsis for what has no room.
[[nodiscard]] std::string fitted_text(std::string_view utf8, double width);
/// Lines that are broken between words; what does not fit into the last one is left out.
/// @param most  lines, at least one
[[nodiscard]] std::vector<std::string> wrapped_text(std::string_view utf8, double width,
                                                    std::size_t most);
/// As XML: markup escaped, and a visible mark for whatever XML cannot hold.
[[nodiscard]] std::string xml_text(std::string_view text);

}  // namespace areo::document
