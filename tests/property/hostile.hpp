// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Ferments of which the readings so far say little about what comes: the pace changes late, for
// reasons that no reading shows.
#include <array>
#include <cmath>
#include <string_view>
#include <utility>

#include "areo/ferment/balling.hpp"
#include "areo/physics/scale.hpp"
#include "ferments.hpp"

namespace areo::property {

enum class Change {
  two_sugars,
  lag_and_cold_days,
  cold_week,
  second_wave,
  faster_and_faster,
  to_the_last,
  curve
};
inline constexpr std::array<std::string_view, 7> change_names{
    "two sugars",        "lag, two cold days",    "a cold week",   "second wave",
    "faster and faster", "until nothing is left", "a growth curve"};

/// A clock that shows little of the days between two, and the time after them less so much.
inline double cold_clock(double day, double from, double to, double part) {
  return std::min(day, from) + part * std::max(std::min(day, to) - from, 0.0) +
         std::max(day - to, 0.0);
}

/// One that takes about so many days.
inline Done done_of(World& world, Change change, double days) {
  const auto decay = [](double in_times) { return 1 - std::exp(-std::max(in_times, 0.0)); };
  switch (change) {
    case Change::two_sugars:
      return [part = world.uniform(0.6, 0.8), fast = days * world.uniform(0.15, 0.3), days,
              decay](double day) {
        return part * decay(3 * day / fast) + (1 - part) * decay(3 * day / days);
      };
    case Change::lag_and_cold_days:
      return [lag = world.uniform(0.05, 0.3) * days, from = world.uniform(0.3, 0.7) * days, days,
              decay](double day) {
        constexpr double cold = 2, part = 0.1;
        return decay(3 * (cold_clock(day, from, from + cold, part) - lag) / (days - lag));
      };
    case Change::cold_week:
      return [from = world.uniform(0.2, 0.8) * days, cold = world.uniform(5, 12), days,
              decay](double day) {
        constexpr double part = 0.02;
        return decay(3 * cold_clock(day, from, from + cold, part) / days);
      };
    case Change::second_wave:
      return [first = world.uniform(0.5, 0.75), begins = world.uniform(0.6, 1) * days, days,
              decay](double day) {
        return first * decay(8 * day / days) + (1 - first) * decay(8 * (day - begins) / days);
      };
    case Change::faster_and_faster:
      return [days](double day) { return std::pow(std::min(day / days, 1.0), 2); };
    case Change::to_the_last: return [days, decay](double day) { return decay(3 * day / days); };
    case Change::curve: break;
  }
  return [middle = world.uniform(0.15, 0.5) * days, rate = world.uniform(6, 12) / days,
          s_shaped = world.uniform(0, 1) < 0.5](double day) {
    const double z = rate * (day - middle);
    return s_shaped ? 1 / (1 + std::exp(-z)) : std::exp(-std::exp(-z));
  };
}

/// Of a drink without extract, by Balling's balance with a yield as those of distilled beers
/// scatter.
inline double dry_gravity(World& world, double original) {
  const ExtractFraction extract = physics::liquid_from_mark(physics::sg_20_20, original).extract;
  const ferment::Yield yield{ferment::balling_yield.extract_per_ethanol +
                             world.normal(ferment::yield_uncertainty)};
  constexpr ExtractFraction none{0};
  return physics::mark_from_liquid(physics::sg_20_20,
                                   {none, ferment::ethanol_from_extracts(extract, none, yield)});
}

inline Notes any_notes(World& world, Change change, const Conditions& conditions) {
  Notes n;
  const bool weak = world.uniform(0, 1) < 0.6;
  n.original = weak ? world.uniform(1.015, 1.030) : world.uniform(1.030, 1.090);
  n.whole_fall = change == Change::to_the_last ? n.original - dry_gravity(world, n.original)
                                               : (n.original - 1) * world.uniform(0.4, 1.05);
  const double days = 4 * std::pow(15, world.uniform(0, 1));
  n.done = done_of(world, change, days);
  return with_readings(world, std::move(n), days, conditions);
}

}  // namespace areo::property
