// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// The parts of a page in HTML, for pages that are written as they are made.
#include <string>
#include <string_view>
#include <vector>

#include "areo/document/page.hpp"

namespace areo::document {

/// Everything up to the heading of the first level.
[[nodiscard]] std::string page_begin(std::string_view title, const PageSetup& setup);
/// @param footer  HTML
[[nodiscard]] std::string page_end(std::string_view footer);

[[nodiscard]] std::string headline_block(const Headline& headline);
[[nodiscard]] std::string caution_block(std::string_view text);

/// "<p>...</p>" of a text.
[[nodiscard]] std::string element(std::string_view name, std::string_view text);

enum class TableStyle {
  words,         ///< its cells stand to the left
  numbers,       ///< to the right
  many_numbers,  ///< in smaller type
};
/// A table up to its first row; its columns stand again at the head of every sheet.
/// @param widths  of the columns, relative to each other; none: as wide as what is in them
[[nodiscard]] std::string table_begin(std::string_view caption,
                                      const std::vector<std::string>& columns,
                                      TableStyle style = TableStyle::words,
                                      const std::vector<std::size_t>& widths = {});
/// @throws Error{domain} for more cells than columns
[[nodiscard]] std::string table_row(const std::vector<std::string>& columns,
                                    const std::vector<std::string>& cells);
inline constexpr std::string_view table_end = "</tbody>\n</table>\n";

}  // namespace areo::document
