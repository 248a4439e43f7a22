// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Calls that make no sense, told in the words of the command line and of the kitchen.
#include <string>

#include "failure.hpp"

namespace CLI {  // NOLINT(readability-identifier-naming): the library's name
class App;
class ParseError;
}  // namespace CLI

namespace areo::cli {

/// What is wrong with a call that the command tree refused; a misspelt command or option gets its
/// nearest neighbour as a hint.
/// @param last_word  of the call
[[nodiscard]] UsageError usage_error(const CLI::App& app, const CLI::ParseError& e,
                                     const std::string& last_word);

/// An option with nothing behind it, as an empty variable of a script leaves it, would be ignored.
/// @throws UsageError for such an option of the chosen command; a note may be empty
void refuse_empty_options(const CLI::App& app);

/// @throws UsageError if both are given
/// @param first,second  as they are typed: "--sugar", "two gravities"
void refuse_together(bool first_given, const std::string& first, bool second_given,
                     const std::string& second, const std::string& hint);

/// @throws UsageError for a level that is about no limit
void refuse_level_alone(const std::string& limit, const std::string& level);

}  // namespace areo::cli
