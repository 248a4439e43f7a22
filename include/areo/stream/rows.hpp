// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Rows of a notebook as text that loses nothing, and back: JSON lines, and cells of CSV files.
#include <functional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

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
using Members = std::vector<std::pair<std::string, std::string>>;
/// @throws ParseError for anything else
[[nodiscard]] Members members_from_json(std::string_view line);
/// Calls `act` for each object of a JSON array, or of JSON lines.
/// @param act  gets what gives its members, which throws as members_from_json()
/// @throws ParseError for an array that is none
void each_object(std::string_view text,
                 const std::function<void(const std::function<Members()>&)>& act);

}  // namespace areo::stream
