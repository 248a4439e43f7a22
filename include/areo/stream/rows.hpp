// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Rows of a notebook as text that loses nothing, and back: JSON lines, and cells of CSV files.
#include <string>
#include <string_view>

#include "areo/notebook/dump.hpp"

namespace areo::stream {

/// {"table":"reading","row":{"id":7,...}}. Numbers are the shortest that read back as the same
/// number; a text that is not valid UTF-8 becomes {"hex":"..."}.
[[nodiscard]] std::string row_json(const notebook::Table& table,
                                   const std::vector<notebook::Cell>& cells);
/// @throws ParseError for anything else
[[nodiscard]] notebook::NamedRow row_from_json(std::string_view line);

/// A cell of a CSV file, not quoted yet. Backslashes are doubled, control characters and bytes that
/// are not valid UTF-8 become \xHH; a text that a spreadsheet would run, or that begins with an
/// apostrophe, gets an apostrophe in front.
[[nodiscard]] std::string row_cell(const notebook::Cell& cell);
/// @throws ParseError for an invalid number, or a broken escape
[[nodiscard]] notebook::Cell cell_from_row(std::string_view text, const notebook::Column& column);

/// The members of an object of texts and numbers, as texts, in order: a row of readings.
/// @throws ParseError for anything else
[[nodiscard]] std::vector<std::pair<std::string, std::string>> members_from_json(
    std::string_view line);
/// The objects of a JSON array, or of JSON lines, each as one line.
/// @throws ParseError for anything else
[[nodiscard]] std::vector<std::string> objects_from_json(std::string_view text);

}  // namespace areo::stream
