// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// A blank sheet for what is read at the jar, with boxes for a pen.
#include <cstddef>
#include <string>

#include "areo/core/moment.hpp"
#include "areo/document/sheet.hpp"
#include "areo/notebook/store.hpp"
#include "areo/paper/grid.hpp"

namespace areo::paper {

/// What the sheet says of a batch: blanks for a pen.
[[nodiscard]] document::Headline blank_log_headline();
/// Of a batch in the notebook, with blanks for what is not noted, and the offset of each instrument
/// that it was read with and that is in use.
/// @param at  the corrections of that moment
/// @throws Error{store} for a name that the notebook does not have
[[nodiscard]] document::Headline log_headline(const notebook::Notebook& book,
                                              const std::string& batch, Moment at);

/// The keys of its columns are those that a table of readings is imported by. For people there is a
/// column more, for what was added.
/// @param batch  that the sheet is for; empty: any
[[nodiscard]] document::SheetHead log_head(const document::Headline& headline,
                                           const std::string& batch, Shape shape);
/// A box is drawn by the page; a text needs a line to write on.
enum class Cells { empty, lines };
void write_log(const document::SheetHead& head, std::size_t rows, Cells cells,
               document::SheetWriter& out);

}  // namespace areo::paper
