// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// The program: the command tree, and failures turned into messages and exit codes.

namespace areo::cli {

/// Runs the program. Nothing escapes: every failure ends as a message and an exit code of
/// failure.hpp.
[[nodiscard]] int run_app(int argc, const char* const* argv) noexcept;

}  // namespace areo::cli
