#pragma once
// A strength, however it was got at, as a command prints it.
#include "command_line.hpp"
#include "output.hpp"
#include "strength.hpp"

namespace areo::cli {

/// "--all", for whoever wants more than the strength.
void add_all_option(const Command& command, bool& all);
/// Prints a result, or its budget if that is wanted, as text or JSON.
/// @return exit code: no alcohol computed is a "no"
int print_strength(const measurement::AlcoholResult& a, const StrengthWords& words,
                   const Session& session, const ReportedResult& reported);

}  // namespace areo::cli
