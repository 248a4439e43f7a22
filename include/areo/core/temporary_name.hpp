// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Names that nobody can have guessed.
#include <string>

namespace areo {

/// A name with six letters behind it, for mkstemp() and mkdtemp() to fill in.
[[nodiscard]] inline std::string with_letters_to_fill(const std::string& name) {
  return name + std::string(6, 'X');
}

}  // namespace areo
