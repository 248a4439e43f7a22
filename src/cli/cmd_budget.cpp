// SPDX-License-Identifier: GPL-3.0-or-later
// areo budget: where the uncertainty of another command's result comes from.
#include <fmt/format.h>

#include <CLI/CLI.hpp>

#include "command.hpp"
#include "usage.hpp"

namespace areo::cli {

void setup_budget(const Command& app, Session& session, Run& run) {
  CLI::App* c = app.app()->add_subcommand(
      "budget", "where the ± of a result comes from, and what lessens it");
  c->require_subcommand(1);
  c->add_option("--of", session.budget.of,
                "key of the quantity as in --json; the first one unless stated")
      ->type_name("KEY");
  c->add_option("--target", session.budget.target,
                "a ± to reach, in the unit of the result: prints the least that has to be done")
      ->type_name("0.2");
  for (const auto setup : {setup_convert, setup_correct, setup_refract, setup_alcohol})
    setup(Command{c, session.usual.get()}, session, run);
  for (CLI::App* command : c->get_subcommands({}))
    command->footer(
        fmt::format("This is the budget of what areo {0} prints; options as there, and "
                    "those of areo budget:\n  --of KEY, --target 0.2",
                    command->get_name()));
  c->footer(
      "Examples:\n  areo budget alcohol 1.048 1.009 --temp 20C\n"
      "  areo budget alcohol 1.048 1.009 --temp 20C --of real_extract_percent\n"
      "  areo budget correct 1.048 --temp 27C --target 0.001");
  c->preparse_callback([&session](std::size_t) { session.budget.wanted = true; });
  c->callback([c] {
    for (const CLI::App* command : c->get_subcommands())
      if (command->get_option("--csv")->count() > 0)
        throw UsageError{fmt::format("a budget is of one result: areo budget {} takes no --csv",
                                     command->get_name()),
                         "give the readings of one row"};
  });
}

}  // namespace areo::cli
