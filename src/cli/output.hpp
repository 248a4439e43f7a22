// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Standard output: lines for people, lines for programs, and the certainty that they arrived.
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "areo/entry/usual_units.hpp"

namespace areo::cli {

/// What the user asked of every command.
struct Session {
  std::string notebook;                      ///< --notebook; empty = the default
  entry::SharedNotebook book;                ///< that one, for whoever only reads
  std::shared_ptr<entry::UsualUnits> usual;  ///< of that one
  bool json = false;
  bool full = false;
  std::shared_ptr<bool> noted = std::make_shared<bool>(false);  ///< whether the notebook has more
  /// Of the commands below `areo budget`.
  struct {
    bool wanted = false;
    std::string of, target;  ///< --of, --target; empty = not given
  } budget;
};

/// Prints a line, on several if the screen is too narrow; control characters in it become visible
/// marks.
void line(std::string_view text);
/// The same on standard error.
void error_line(std::string_view text);
/// A line as line() prints it, with its end.
[[nodiscard]] std::string line_text(std::string_view text);
/// Prints rows below the names of their columns, as wide as the screen.
/// @param rows   the first one has a cell for each column
/// @param spare  so many of the last columns may be left out; then a line says so
void table(std::vector<std::vector<std::string>> rows, std::size_t spare = 0);
/// Prints a line as it is, for JSON and CSV.
void raw_line(std::string_view text);
/// "note: ..." lines.
void notes(const std::vector<std::string>& all);
/// Each as line() prints it.
void lines(const std::vector<std::string>& all);
/// @throws Error{file} if anything printed did not reach the disk or the pipe
void finish_output();

}  // namespace areo::cli
