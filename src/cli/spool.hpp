// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// A stream that can be read twice.
#include <fstream>
#include <istream>

namespace areo::cli {

/// All that a pipe brings, in a file without a name. Whoever reads it slowly, or twice, waits for
/// nobody; it takes no memory.
/// @throws Error{file} if there is no room for it
[[nodiscard]] std::ifstream spooled(std::istream& in);

}  // namespace areo::cli
