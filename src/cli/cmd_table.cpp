// SPDX-License-Identifier: GPL-3.0-or-later
// areo table: reference tables, computed and written row by row.
#include "command.hpp"
#include "table.hpp"

namespace areo::cli {

void setup_table(const Command& app, const Session& session, Run& run) {
  auto c = app.add_subcommand("table", "tables and cards to print");
  c.require_subcommand(1);
  for (const auto setup : {setup_table_conversion, setup_table_temperature, setup_table_alcohol,
                           setup_table_refractometer, setup_table_strength, setup_table_solution,
                           setup_table_dilution, setup_table_card, setup_table_log})
    setup(c, session, run);
}

}  // namespace areo::cli
