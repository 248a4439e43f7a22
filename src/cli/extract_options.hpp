// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Options that say what the extract of a drink consists of.
#include "areo/entry/extract_kind.hpp"
#include "command_line.hpp"

namespace areo::cli {

void add_extract_options(const Command& command, entry::ExtractWords& words);
/// @throws UsageError for both of them
void check_extract_options(const entry::ExtractWords& words);

}  // namespace areo::cli
