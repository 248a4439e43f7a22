// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// A person is asked before something doubtful is noted; a program is refused, and may insist.
#include "areo/batch/expectation.hpp"
#include "command_line.hpp"
#include "output.hpp"

namespace areo::cli {

/// "--yes"
void add_insist_option(const Command& command, bool& yes);

/// Whether to note it: without doubts, or if the user insists with --yes, or answers so at a
/// terminal, where it asks on standard error. Anything but y means no, and "not noted" is said.
/// @throws Error{inconsistent} with the doubts if nobody can be asked: without a terminal, and with
///         --json
[[nodiscard]] bool insisted(const batch::Doubts& doubts, bool yes, const Session& session);

}  // namespace areo::cli
