// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Options about the columns of a file, the same for every command that takes one.
#include <string>
#include <vector>

#include "areo/text/columns.hpp"
#include "areo/text/said_once.hpp"
#include "command_line.hpp"
#include "output.hpp"

namespace areo::cli {

/// As typed.
struct ColumnOptions {
  std::vector<std::string> keep;   ///< --keep COLUMN
  std::vector<std::string> units;  ///< --unit COLUMN=UNIT
};
/// @param kept  what becomes of a column that is kept
void add_column_options(const Command& command, ColumnOptions& options, const std::string& kept);
/// @throws UsageError for one of them without a file
void refuse_columns_alone(const ColumnOptions& options, bool file_given);

/// What the options say, and the units that areo knows; fields are the command's.
/// @throws ParseError for a --unit that is not COLUMN=UNIT
[[nodiscard]] text::ColumnRules column_rules(const ColumnOptions& options,
                                             const notebook::Settings& usual);

/// Prints what was refused in a file to standard error: "areo: FILE:LINE: message", and hints
/// unless a program reads along.
void tell_refused(const text::SaidOnce& refused, const std::string& file, const Session& session);

}  // namespace areo::cli
