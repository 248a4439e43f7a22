// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/entry/solution_entry.hpp"

#include <fmt/format.h>

#include "areo/core/error.hpp"
#include "areo/measurement/solution.hpp"
#include "areo/physics/mixture.hpp"
#include "areo/physics/salt.hpp"
#include "areo/text/format.hpp"
#include "areo/text/parse.hpp"
#include "areo/text/temperature_text.hpp"
#include "areo/wording/notes.hpp"
#include "areo/wording/quantity_lines.hpp"

namespace areo::entry {

using calibration::WeighedSolution;

namespace {

WeighedSolution kind_of(const TypedSolution& o, double solute_g, double water_g) {
  const double division = text::grams_from_text(o.balance);
  return o.kind == "sugar" ? calibration::sugar_solution(solute_g, water_g, division)
                           : calibration::salt_solution(solute_g, water_g, division);
}

// What a solution of this kind can show, in the unit that was typed.
void require_reachable(const TypedSolution& o, const text::TypedMark& target) {
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

struct Shown {
  std::vector<instruments::Hydrometer> hydrometers;
  std::vector<instruments::Refractometer> refractometers;
};

// The instrument named, or one of each usual scale without error.
Shown shelf_of(const TypedSolution& o, ReadingResolver& resolver, Temperature t) {
  if (!o.instrument.empty()) {
    if (resolver.notebook().instrument(o.instrument).refractometer() != nullptr)
      return {{}, {resolver.refractometer(o.instrument).refractometer}};
    return {{resolver.hydrometer(o.instrument).hydrometer}, {}};
  }
  Shown ideal;
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

}  // namespace

WeighedSolution weighed_solution(const TypedSolution& o) {
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

measurement::Result solution_shows(const WeighedSolution& weighed, const TypedSolution& typed,
                                   ReadingResolver& resolver) {
  const auto temperature = resolver.temperature(typed.temperature, celsius_point(20));
  const Shown shelf = shelf_of(typed, resolver, celsius_point(temperature.indication_c));
  return measurement::describe_solution(weighed, temperature, shelf.hydrometers,
                                        shelf.refractometers);
}

std::vector<std::string> solution_lines(const WeighedSolution& w, const TypedSolution& typed,
                                        const measurement::Result& shows, bool full,
                                        text::TemperatureUnit unit) {
  std::vector<std::string> all{fmt::format("{} of {} in {} of water",
                                           grams_text(w.solute_g, w.balance_division_g), typed.kind,
                                           grams_text(w.water_g, w.balance_division_g))};
  const auto add = [&all](const std::vector<std::string>& more) {
    all.insert(all.end(), more.begin(), more.end());
  };
  const auto& q = shows.quantities;
  add(wording::quantity_lines({q.begin(), q.begin() + 3}, full));
  all.push_back(
      fmt::format("an instrument without error shows at {}",
                  text::temperature_text(text::celsius_from_text(typed.temperature), unit)));
  add(wording::quantity_lines({q.begin() + 3, q.end()}, full));
  for (const std::string& note : wording::own_notes(shows)) all.push_back("note: " + note);
  all.push_back(
      "next: stir until clear, let it reach room temperature, read, then areo calibrate " +
      typed.kind);
  return all;
}

}  // namespace areo::entry
