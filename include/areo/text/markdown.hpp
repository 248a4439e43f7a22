// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Texts as Markdown shows them: as they are, whatever they hold.
#include <string>
#include <string_view>

namespace areo::text {

/// A line: what would be markup is escaped, at its beginning what would begin a list or a heading
/// too; addresses become no links; control characters become visible marks.
[[nodiscard]] std::string markdown_line(std::string_view text);
/// The same within a cell of a table, where a sign in front of a number is a sign.
[[nodiscard]] std::string markdown_cell(std::string_view text);

}  // namespace areo::text
