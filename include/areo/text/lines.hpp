// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Text in lines of a stated width: sentences that are broken, and tables that fit.
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace areo::text {

/// Columns of a line that goes to no terminal.
inline constexpr std::size_t usual_columns = 80;

/// Lines of at most so many columns, broken between words; a longer word keeps a line of its
/// own. What is read as one counts as one word: a number with its ± or per cent, a date with its
/// time, and a command of areo up to the end of its sentence, as it is there to be copied. At
/// least one line.
[[nodiscard]] std::vector<std::string> wrapped(std::string_view utf8, std::size_t columns);
/// Columns of the longest word between spaces.
[[nodiscard]] std::size_t longest_word(std::string_view utf8);
/// The same with what wrapped() keeps together.
[[nodiscard]] std::size_t longest_unbroken(std::string_view utf8);

/// A line of output, broken as wrapped() if it is too wide. What goes on stands further in than
/// its beginning; behind a name and a gap, "  --limit 0.5      when it passed ...", below the text.
[[nodiscard]] std::vector<std::string> fitted(std::string_view line, std::size_t columns);

/// That line with its ends, for a terminal: control characters in it become visible marks.
[[nodiscard]] std::string printed(std::string_view line, std::size_t columns);

struct TableText {
  std::vector<std::string> lines;
  std::size_t left_out = 0;  ///< columns that had no room, the last ones
  std::size_t needed = 0;    ///< columns of a line that has room for all of them
};
/// Rows of cells, the first of which names them, as columns that are two spaces apart. Where they
/// are too wide, heads and long cells take several lines, then the last columns are left out, then
/// a ± stands below its number, and a name that is still too long takes several lines. What ends a
/// row may run on below empty cells.
/// @param rows   the first one has a cell for each column
/// @param spare  so many of the last columns may be left out
[[nodiscard]] TableText table_text(const std::vector<std::vector<std::string>>& rows,
                                   std::size_t columns, std::size_t spare = 0);

}  // namespace areo::text
