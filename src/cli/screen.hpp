// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// How wide a line may be.
#include <cstddef>

namespace areo::cli {

/// Columns for what people read: $COLUMNS where it is set, else those of the terminal that standard
/// output goes to, else 80. Never below 40.
[[nodiscard]] std::size_t screen_columns();
/// The same for a file that is written: no terminal is asked.
[[nodiscard]] std::size_t file_columns();

}  // namespace areo::cli
