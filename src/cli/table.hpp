// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// The tables; each adds a sub-command to `table`.
#include "command.hpp"
#include "command_line.hpp"

namespace areo::cli {

void setup_table_conversion(const Command& tables, const Session& session, Run& run);
void setup_table_temperature(const Command& tables, const Session& session, Run& run);
void setup_table_alcohol(const Command& tables, const Session& session, Run& run);
void setup_table_refractometer(const Command& tables, const Session& session, Run& run);
void setup_table_solution(const Command& tables, const Session& session, Run& run);
void setup_table_strength(const Command& tables, const Session& session, Run& run);
void setup_table_dilution(const Command& tables, const Session& session, Run& run);
void setup_table_card(const Command& tables, const Session& session, Run& run);
void setup_table_log(const Command& tables, const Session& session, Run& run);

}  // namespace areo::cli
