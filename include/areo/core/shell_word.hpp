// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Names in commands that people copy.
#include <string>
#include <string_view>

namespace areo {

/// A text as one word of a POSIX shell: as it is where that is plain, else between apostrophes,
/// with escapes for what cannot be typed. In a command that is proposed a name such as
/// "x; touch y" stays a name.
[[nodiscard]] std::string shell_word(std::string_view text);

}  // namespace areo
