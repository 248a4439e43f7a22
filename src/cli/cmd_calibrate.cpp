// SPDX-License-Identifier: GPL-3.0-or-later
// areo calibrate: check an instrument, build its correction, put it in force.
#include <memory>

#include "areo/entry/reading_resolver.hpp"
#include "calibrate.hpp"
#include "command.hpp"
#include "insist.hpp"
#include "reading_options.hpp"
#include "usage.hpp"

namespace areo::cli {
namespace {

using notebook::CheckMethod;
using Options = CalibrateOptions;

Command add_check(const Command& parent, const char* name, const char* what, CheckMethod method,
                  const std::shared_ptr<Options>& o, const Session& session, Run& run) {
  auto c = parent.add_subcommand(name, what);
  c.add_option("name", o->name, "the instrument").required();
  c.add_option("reading", o->reading, "what it shows").required();
  c.add_option("--on", o->on, "when the check was made; now unless stated").date();
  c.add_option("--note", o->note, "anything worth knowing");
  add_insist_option(c, o->yes);
  c.callback([=, &session, &run] {
    if (method == CheckMethod::boiling && o->pressure.empty() == o->altitude.empty())
      throw UsageError{"--pressure or --altitude is required",
                       "areo calibrate boiling --help shows how"};
    refuse_together(o->tap, "--tap", o->distilled, "--distilled", "say which of them it was");
    entry::ReadingOptions with;
    with.thermometer = o->thermometer;
    with.temperature_accuracy = o->temperature_accuracy;
    check_temperature_options(with, !o->temperature.empty(), "a temperature");
    run = [=, &session] { return run_check(*o, method, session); };
  });
  return c;
}

void add_temperature_options(const Command& c, Options& o) {
  c.add_option("temperature", o.temperature, "temperature of the liquid: 21C, 70F").temperature();
  c.add_option("--thermometer", o.thermometer, "thermometer in the notebook that showed it")
      .type_name("NAME");
  c.add_option("--temp-accuracy", o.temperature_accuracy, "±; 0.5C unless stated")
      .type_name("0.2C");
  c.add_flag("--top", o.top, "read at the top of the meniscus");
  c.add_flag("--distilled", o.distilled, "distilled or demineralised water");
  c.add_flag("--tap", o.tap, "tap water: 0 to 0.6 g/L of solids");
}

}  // namespace

void setup_calibrate(const Command& app, const Session& session, Run& run) {
  const auto o = std::make_shared<Options>();
  auto c = app.add_subcommand("calibrate", "check an instrument, build its correction");
  c.require_subcommand(1);
  auto water = add_check(c, "water", "a hydrometer or refractometer in clean water",
                         CheckMethod::water, o, session, run);
  add_temperature_options(water, *o);
  for (const auto& [name, method] :
       {std::pair{"sugar", CheckMethod::sugar}, {"salt", CheckMethod::salt}}) {
    auto s = add_check(c, name, "a hydrometer or refractometer in a weighed solution", method, o,
                       session, run);
    add_temperature_options(s, *o);
    s.add_option("--solute", o->solute, "mass of the sugar or salt").required().mass("52g");
    s.add_option("--water", o->water, "mass of the water").required().mass("448g");
    s.add_option("--balance", o->balance, "division of the balance; 1g unless stated").mass("0.1g");
    s.add_option("--balance-name", o->balance_name, "which balance, for the certificate");
  }
  auto point = add_check(c, "certificate", "a point of a certificate: add CORRECTION at READING",
                         CheckMethod::certificate, o, session, run);
  point.add_option("--correction", o->correction, "to be added, in the unit of the scale")
      .required();
  point.add_option("--expanded", o->expanded, "expanded uncertainty of the correction").required();
  point.add_option("--factor", o->factor, "coverage factor of the certificate; 2 unless stated");
  point.add_flag("--apart", o->apart,
                 "its uncertainty has nothing in common with that of the other points");
  add_check(c, "ice", "a thermometer in crushed melting ice", CheckMethod::ice, o, session, run);
  auto boiling = add_check(c, "boiling", "a thermometer in boiling water", CheckMethod::boiling, o,
                           session, run);
  auto pressure =
      boiling
          .add_option("--pressure", o->pressure, "pressure at the place, not reduced to sea level")
          .pressure("98.2kPa");
  boiling.add_option("--altitude", o->altitude, "or the altitude; weather leaves ± 2 kPa")
      .type_name("300m")
      .excludes(pressure);
  auto fit = c.add_subcommand("fit", "build the correction from the checks and put it in force");
  fit.add_option("name", o->name, "the instrument").required();
  fit.add_option("--without", o->without, "leave these checks out").delimiter(',').type_name("N,N");
  fit.add_option("--from", o->from,
                 "since when it holds; unless stated from the last check on, the first one always")
      .date();
  fit.add_option("--since", o->since, "only checks made from this day on").date();
  fit.add_option("--due", o->due,
                 "when to check again: results after that day say so; never unless stated")
      .date();
  fit.add_option("--note", o->note, "anything worth knowing");
  fit.callback([=, &session, &run] { run = [=, &session] { return run_fit(*o, session); }; });
  auto show = c.add_subcommand("show", "the calibration in force, its checks and those before");
  show.add_option("name", o->name, "the instrument").required();
  show.callback(
      [=, &session, &run] { run = [=, &session] { return run_show_calibration(*o, session); }; });
  c.footer(
      "Examples:\n  areo calibrate water stem-1 1.001 21C\n"
      "  areo calibrate sugar stem-1 1.041 21C --solute 52g --water 448g\n"
      "  areo calibrate certificate stem-1 1.040 --correction -0.0004 --expanded 0.0003\n"
      "  areo calibrate ice probe-1 0.5C\n"
      "  areo calibrate boiling probe-1 99.0C --altitude 300m\n"
      "  areo calibrate fit stem-1");
}

}  // namespace areo::cli
