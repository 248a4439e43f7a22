#pragma once
// The tables beside the conversion table; each adds a sub-command to `table`.
#include "command.hpp"
#include "command_line.hpp"

namespace areo::cli {

void setup_table_refractometer(const Command& tables, const Session& session, Run& run);

}  // namespace areo::cli
