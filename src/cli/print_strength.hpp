// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// A strength, however it was got at, as a command prints it.
#include "areo/wording/strength.hpp"
#include "command_line.hpp"
#include "output.hpp"

namespace areo::cli {

/// "--all", for whoever wants more than the strength.
void add_all_option(const Command& command, bool& all);
/// Prints a result, or its budget if that is wanted, as text or JSON.
/// @return exit code: no alcohol computed is a "no"
int print_strength(const measurement::AlcoholResult& a, const wording::StrengthWords& words,
                   const Session& session, const wording::ReportedResult& reported);

}  // namespace areo::cli
