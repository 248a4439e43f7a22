// SPDX-License-Identifier: GPL-3.0-or-later
// areo solution: weigh in a reference liquid, and what instruments should show in it.
#include <fmt/format.h>

#include <memory>

#include "areo/core/error.hpp"
#include "areo/entry/reading_resolver.hpp"
#include "areo/measurement/solution.hpp"
#include "areo/physics/mixture.hpp"
#include "areo/physics/salt.hpp"
#include "areo/physics/water.hpp"
#include "areo/text/format.hpp"
#include "areo/text/parse.hpp"
#include "areo/wording/quantity_lines.hpp"
#include "areo/wording/result_json.hpp"
#include "command.hpp"
#include "failure.hpp"
#include "reading_options.hpp"
#include "usage.hpp"

namespace areo::cli {
namespace {

using calibration::WeighedSolution;

struct Options {
  std::string kind, solute, water, target, total, balance = "1g", temperature = "20C", instrument;
  entry::ReadingOptions with;
};

WeighedSolution kind_of(const Options& o, double solute_g, double water_g) {
  const double division = text::grams_from_text(o.balance);
  return o.kind == "sugar" ? calibration::sugar_solution(solute_g, water_g, division)
                           : calibration::salt_solution(solute_g, water_g, division);
}

// What a solution of this kind can show, in the unit that was typed.
void require_reachable(const Options& o, const text::TypedMark& target) {
  const Temperature t = target.scale.reference();
  constexpr double short_of_the_end = 0.999;  // as calibration::weigh_in() stops
  const Density most =
      o.kind == "sugar"
          ? physics::density(
                {ExtractFraction{short_of_the_end * physics::mixture_extract_range.hi}}, t)
          : physics::salt_density(SaltFraction{short_of_the_end * physics::salt_fraction_range.hi},
                                  t);
  const double lo =
      physics::mark_from_density(target.scale, physics::density(physics::Liquid{}, t));
  const double hi = physics::mark_from_density(target.scale, most);
  const double rounding = 1e-9 * (hi - lo);
  if (target.value > lo + rounding && target.value < hi) return;
  throw Error{Errc::domain,
              fmt::format("no solution of {} shows {}: {}", o.kind, o.target,
                          text::reach_text(target.scale, lo, hi)),
              "write a value between these"};
}

WeighedSolution solution_of(const Options& o) {
  if (o.target.empty())
    return kind_of(o, text::grams_from_text(o.solute), text::grams_from_text(o.water));
  const text::TypedMark target = text::mark_from_text(o.target);
  require_reachable(o, target);
  WeighedSolution w = calibration::weigh_in(kind_of(o, 1, 1), text::grams_from_text(o.total),
                                            physics::density_from_mark(target.scale, target.value),
                                            target.scale.reference());
  // What the balance can show; the uncertainty below is that of the rounded masses.
  w = calibration::to_balance(w);
  if (!(w.solute_g > 0))
    throw Error{Errc::inconsistent,
                fmt::format("that is less than one division of the balance ({})", o.balance),
                "make more of it, or state a finer balance with --balance 0.1g"};
  return w;
}

struct InstrumentHistory {
  std::vector<instruments::Hydrometer> hydrometers;
  std::vector<instruments::Refractometer> refractometers;
};

// The instrument named, or one of each usual scale without error.
InstrumentHistory shelf_of(const Options& o, entry::ReadingResolver& resolver, Temperature t) {
  if (!o.instrument.empty()) {
    if (resolver.notebook().instrument(o.instrument).refractometer() != nullptr)
      return {{}, {resolver.refractometer(o.instrument).refractometer}};
    return {{resolver.hydrometer(o.instrument).hydrometer}, {}};
  }
  InstrumentHistory ideal;
  for (const physics::Scale& s :
       {physics::sg_20_20, physics::specific_gravity_scale<Ref60F>(),
        physics::specific_gravity_scale<Ref20_4>(), physics::density_20, physics::plato_20}) {
    instruments::Hydrometer h;
    h.scale = s;
    ideal.hydrometers.push_back(h);
  }
  const Range& range = physics::index_temperature_range;
  if (o.kind == "sugar" && t.celsius() >= range.lo && t.celsius() <= range.hi)
    ideal.refractometers.emplace_back();
  return ideal;
}

std::string grams_text(double g, double division) {
  return text::fixed(g, text::decimals_of_step(division)) + " g";
}

int run_solution(const Options& o, const Session& session) {
  entry::ReadingResolver resolver = reading_resolver(session, o.with);
  const WeighedSolution w = solution_of(o);
  const auto temperature = resolver.temperature(o.temperature, celsius_point(20));
  const InstrumentHistory shelf = shelf_of(o, resolver, celsius_point(temperature.indication_c));
  const auto result =
      measurement::describe_solution(w, temperature, shelf.hydrometers, shelf.refractometers);
  if (session.json) {
    raw_line(wording::solution_json(w, result));
    return done;
  }
  line(fmt::format("{} of {} in {} of water", grams_text(w.solute_g, w.balance_division_g), o.kind,
                   grams_text(w.water_g, w.balance_division_g)));
  const auto& q = result.quantities;
  lines(wording::quantity_lines({q.begin(), q.begin() + 3}, session.full));
  line(fmt::format("an instrument without error shows at {}",
                   text::celsius_text(text::celsius_from_text(o.temperature))));
  lines(wording::quantity_lines({q.begin() + 3, q.end()}, session.full));
  notes(result.own_notes());
  line("next: stir until clear, let it reach room temperature, read, then areo calibrate " +
       o.kind);
  return done;
}

}  // namespace

void setup_solution(const Command& app, const Session& session, Run& run) {
  const auto o = std::make_shared<Options>();
  auto c = app.add_subcommand("solution", "weigh in a reference liquid for a check");
  c.add_option("kind", o->kind, "sugar or salt").required().one_of({"sugar", "salt"});
  c.add_option("--solute", o->solute, "mass of the sugar or salt").type_name("52g");
  c.add_option("--water", o->water, "mass of the water").type_name("448g");
  c.add_option("--target", o->target, "or the value wanted, with --total").type_name("1.040");
  c.add_option("--total", o->total, "mass of the whole").type_name("500g");
  c.add_option("--balance", o->balance, "division of the balance; 1g unless stated")
      .type_name("0.1g");
  c.add_option("--temp", o->temperature, "temperature of the solution; 20C unless stated")
      .type_name("TEMP");
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
