// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// A table as the user wants it: on the terminal or in a file, as text, CSV, Markdown, HTML or PDF.
#include <functional>
#include <string>
#include <vector>

#include "areo/document/sheet.hpp"
#include "areo/paper/grid.hpp"
#include "command_line.hpp"
#include "output.hpp"
#include "print_options.hpp"

namespace areo::cli {

struct SheetOptions : PrintOptions {
  bool csv = false;
};
void add_sheet_options(const Command& command, SheetOptions& options);
/// @throws UsageError, ParseError as check_print_options(), and for --csv beside another format
void check_sheet_options(const SheetOptions& options, const Session& session);
/// The same as of other prints, and CSV for --csv.
[[nodiscard]] PrintFormat format_of(const SheetOptions& options);

[[nodiscard]] paper::Shape shape_of(const SheetOptions& options);

/// What belongs on one sheet of paper: of so many sizes, ascending, the largest that fits is set.
struct OneSheet {
  std::size_t sizes = 0;  ///< none: as many sheets as it takes
  std::function<void(document::SheetHead&, std::size_t)> set{};
};

/// Largest table that is set on paper, in cells.
inline constexpr std::size_t most_cells_on_paper = 30'000;

/// Writes a table.
/// @param cells  how many it will have, about
/// @param fill   gives the writer its rows and its end
/// @throws Error{domain} for a PDF of more than most_cells_on_paper, of columns that do not fit
///         across, or that does not fit on one sheet; Error{file} as write_file() and
///         publish::pdf(), and for the notebook itself
void write_sheet(const SheetOptions& options, const Session& session, document::SheetHead head,
                 std::size_t cells, const std::function<void(document::SheetWriter&)>& fill,
                 const OneSheet& one_sheet = {});
/// Writes a grid in the same way, with --json one object a cell.
/// @return exit code
int write_grid(const paper::Grid& grid, const SheetOptions& options, const Session& session);

}  // namespace areo::cli
