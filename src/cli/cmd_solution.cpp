// SPDX-License-Identifier: GPL-3.0-or-later
// areo solution: weigh in a reference liquid, and what instruments should show in it.
#include <memory>

#include "areo/entry/solution_entry.hpp"
#include "areo/entry/usual_units.hpp"
#include "areo/wording/result_json.hpp"
#include "command.hpp"
#include "failure.hpp"
#include "reading_options.hpp"
#include "usage.hpp"

namespace areo::cli {
namespace {

struct Options : entry::TypedSolution {
  entry::ReadingOptions with;
};

int run_solution(const Options& o, const Session& session) {
  entry::ReadingResolver resolver = reading_resolver(session, o.with);
  const calibration::WeighedSolution w = entry::weighed_solution(o);
  const measurement::Result shows = entry::solution_shows(w, o, resolver);
  if (session.json)
    raw_line(wording::solution_json(w, shows));
  else
    lines(entry::solution_lines(w, o, shows, session.full,
                                entry::temperature_unit(session.usual->settings())));
  return done;
}

}  // namespace

void setup_solution(const Command& app, const Session& session, Run& run) {
  const auto o = std::make_shared<Options>();
  auto c = app.add_subcommand("solution", "weigh in a reference liquid for a check");
  c.add_option("kind", o->kind, "sugar or salt").required().one_of({"sugar", "salt"});
  c.add_option("--solute", o->solute, "mass of the sugar or salt").mass("52g");
  c.add_option("--water", o->water, "mass of the water").mass("448g");
  c.add_option("--target", o->target, "or the value wanted, with --total").type_name("1.040");
  c.add_option("--total", o->total, "mass of the whole").mass("500g");
  c.add_option("--balance", o->balance, "division of the balance; 1g unless stated").mass("0.1g");
  c.add_option("--temp", o->temperature, "temperature of the solution; 20C unless stated")
      .temperature();
  c.add_option("--instrument", o->instrument, "hydrometer or refractometer in the notebook")
      .type_name("NAME");
  c.add_option("--thermometer", o->with.thermometer, "thermometer in the notebook")
      .type_name("NAME");
  c.add_option("--temp-accuracy", o->with.temperature_accuracy, "±; 0.5C unless stated")
      .type_name("0.2C");
  c.footer(
      "Examples:\n  areo solution sugar --target 1.040 --total 500g\n"
      "  areo solution sugar --solute 52g --water 448g --temp 21C --instrument stem-1\n"
      "  areo solution salt --target 1.040 --total 500g --balance 0.1g");
  c.callback([=, &session, &run] {
    refuse_together(!o->solute.empty() || !o->water.empty(), "--solute with --water",
                    !o->target.empty() || !o->total.empty(), "--target with --total",
                    "give what was weighed, or what is wanted");
    const bool weighed = !o->solute.empty() && !o->water.empty();
    const bool wanted = !o->target.empty() && !o->total.empty();
    if (!weighed && !wanted)
      throw UsageError{"--solute and --water, or --target and --total are needed",
                       "e.g. areo solution sugar --target 1.040 --total 500g"};
    run = [=, &session] { return run_solution(*o, session); };
  });
}

}  // namespace areo::cli
