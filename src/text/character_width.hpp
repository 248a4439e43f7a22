// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// How much room a character takes on a terminal.
#include <cstddef>

namespace areo::text {

/// Columns: 2 for East Asian wide and most emoji, 0 for marks that are set on the character before
/// them and for what is never seen, 1 for all others.
[[nodiscard]] std::size_t character_width(char32_t c);

}  // namespace areo::text
