// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// --monte-carlo and what goes with it.
#include <string>

#include "areo/wording/reported.hpp"
#include "command_line.hpp"
#include "output.hpp"

namespace areo::cli {

struct SamplingOptions {
  bool wanted = false;
  std::string seed, trials;  ///< empty = not given
};
void add_sampling_options(const Command& command, SamplingOptions& options);
/// @param csv  whether rows of a file are read
/// @throws UsageError for --seed or --trials alone, for files and below `areo budget`
void check_sampling_options(const SamplingOptions& options, bool csv, const Session& session);
/// What was asked for, with a bar on the terminal while it lasts.
/// @throws ParseError for a seed or a number of trials that is none
[[nodiscard]] wording::SamplingRequest sampling_request(const SamplingOptions& options);

}  // namespace areo::cli
