// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Another program, run without a shell.
#include <string>
#include <vector>

namespace areo::publish {

/// What to run, and how to get it where it is missing.
struct Program {
  std::string name;                    ///< as it is found on the path
  std::vector<std::string> arguments;  ///< without the name
  std::string package;                 ///< Debian's
  std::string makes;                   ///< "PDF"
};

/// @param input  for its standard input
/// @return       what it wrote on its standard output, never empty
/// @throws       Error{file} if it is not installed, fails, or writes nothing
[[nodiscard]] std::string run(const Program& program, const std::string& input);

}  // namespace areo::publish
