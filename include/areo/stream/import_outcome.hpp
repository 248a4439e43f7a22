// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// What became of the rows of a file that was imported.
#include <string>
#include <vector>

#include "areo/text/said_once.hpp"

namespace areo::stream {

/// In rows.
struct ImportOutcome {
  int good = 0;                                  ///< could be noted
  int noted = 0;                                 ///< were noted
  int there = 0;                                 ///< were in the notebook already
  int bad = 0;                                   ///< refused
  int held = 0;                                  ///< held back until somebody has looked at them
  std::vector<std::string> left_out{};           ///< columns that mean nothing to areo
  std::vector<std::string> notes{};              ///< on the file as a whole
  text::SaidOnce refused{}, held_back{};         ///< with their lines
  bool dry_run = false, all_or_nothing = false;  ///< as they were asked for
  [[nodiscard]] int not_noted() const { return bad + held; }
};

/// "3 noted, 0 there already, 1 refused; mend this one ...": a line, and one on what was left out.
[[nodiscard]] std::vector<std::string> import_lines(const ImportOutcome& o);
/// The same for programs.
[[nodiscard]] std::string import_outcome_json(const ImportOutcome& o);

}  // namespace areo::stream
