// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Options that say with what, and how, a reading was made.
#include <string>

#include "areo/entry/reading_resolver.hpp"
#include "command_line.hpp"
#include "output.hpp"

namespace areo::cli {

void add_reading_options(const Command& command, entry::ReadingOptions& options);
/// Those that any reading has: the thermometer and the moment.
void add_common_options(const Command& command, entry::ReadingOptions& options);
/// @throws UsageError for a division beside a named hydrometer, which has its own
void check_reading_options(const entry::ReadingOptions& options);
/// @throws UsageError for options about a thermometer when no temperature was given
/// @param temperature_options  that could have given one: "--temp"
void check_temperature_options(const entry::ReadingOptions& options, bool temperature_given,
                               const std::string& temperature_options);
/// Resolves by the user's notebook.
/// @throws UsageError for a moment that nothing depends on
/// @throws as ReadingResolver
[[nodiscard]] entry::ReadingResolver reading_resolver(const Session& session,
                                                      const entry::ReadingOptions& options);

}  // namespace areo::cli
