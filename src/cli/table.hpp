#pragma once
// The tables beside the conversion table; each adds a sub-command to `table`.
#include "command.hpp"

namespace areo::cli {

void setup_table_refractometer(CLI::App& tables, const Session& session, Run& run);

}  // namespace areo::cli
