// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Ferments that no curve of areo describes, and what somebody with a hydrometer writes down of
// them, once a day, not always right.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <functional>
#include <numbers>
#include <span>
#include <string_view>
#include <utility>
#include <vector>

#include "areo/trend/whole_divisions.hpp"
#include "world.hpp"

namespace areo::property {

enum class Shape { power, pieces, two_phases, lag, pause, swings, slow, stuck, none };
inline constexpr std::array<std::string_view, 9> shape_names{
    "power-law tail",        "pieces of lines",   "two phases", "lag", "pause",
    "swings of temperature", "slow and constant", "stuck",      "none"};

/// The part of the whole fall that is done by a day.
using Done = std::function<double(double)>;

/// Straight from corner to corner: days and parts.
inline Done through(std::vector<std::pair<double, double>> corners) {
  return [corners = std::move(corners)](double day) {
    for (std::size_t i = 1; i < corners.size(); ++i) {
      const auto& [from, done] = corners[i - 1];
      const auto& [to, then] = corners[i];
      if (day < to) return done + (then - done) * std::max(day - from, 0.0) / (to - from);
    }
    return corners.back().second;
  };
}

/// One that takes about so many days.
inline Done done_of(World& world, Shape shape, double days) {
  const auto decay = [](double in_times) { return 1 - std::exp(-std::max(in_times, 0.0)); };
  switch (shape) {
    case Shape::power:
      return [p = world.uniform(1, 2), days](double day) {
        return 1 - std::pow(1 + 6 * day / days, -p);
      };
    case Shape::pieces:
      return through({{0, 0}, {0.2 * days, 0.1}, {0.5 * days, 0.85}, {1.2 * days, 1}});
    case Shape::two_phases:
      return through({{0, 0}, {world.uniform(0.2, 0.4) * days, 0.7}, {days, 1}});
    case Shape::lag:
      return [lag = world.uniform(0.05, 0.3) * days, days, decay](double day) {
        return decay(3 * (day - lag) / (days - lag));
      };
    case Shape::pause: {
      const double stops = 0.35 * days, goes_on = stops + world.uniform(2, 8);
      return through({{0, 0}, {stops, 0.5}, {goes_on, 0.5}, {goes_on + 0.65 * days, 1}});
    }
    case Shape::swings:  // by the day and by the week: a clock that runs fast when it is warm
      return [phase = world.uniform(0, 7), days, decay](double day) {
        constexpr double circle = 2 * std::numbers::pi, week = 7;
        const auto swung = [&](double t) {
          return t - 0.5 / circle * std::cos(circle * t) -
                 0.4 * week / circle * std::cos(circle * (t + phase) / week);
        };
        return decay(3 * (swung(day) - swung(0)) / days);
      };
    case Shape::slow: return through({{0, 0}, {days, 1}});
    case Shape::stuck:
      return [stops = world.uniform(0.25, 0.5) * days, days, decay](double day) {
        return decay(2.5 * std::min(day, stops) / days);
      };
    case Shape::none: break;
  }
  return [](double) { return 0.0; };
}

struct Conditions {
  double slips = 0;    ///< part of the readings
  bool fizzy = false;  ///< a third is marked as not degassed; of these, more than half are too high
  double times_error = 1;       ///< of the eye, as many times as stated
  bool fizzy_unmarked = false;  ///< as fizzy, and nobody says so
};

/// A ferment with an original of 1.015 to 1.090, most of them weak, and its readings.
struct Notes {
  double original = 1, whole_fall = 0;
  Done done;
  trend::Series readings;           ///< with the uncertainty that areo states for them
  std::vector<double> slipped;      ///< by how much
  double division = 0, real_u = 0;  ///< real_u: of what each has of its own
  std::vector<trend::Noted> noted;  ///< of each

  [[nodiscard]] double gravity(double day) const { return original - whole_fall * done(day); }
  /// True fall, positive.
  [[nodiscard]] double fall(double from, double to) const { return gravity(from) - gravity(to); }
  /// By the day, over the half day before and after, so that day and night do not count.
  [[nodiscard]] double pace(double day) const {
    const double from = std::max(day - 0.5, 0.0);
    return fall(from, day + 0.5) / (day + 0.5 - from);
  }
  /// The first of the readings, as a history has them.
  [[nodiscard]] trend::Series first(std::size_t n) const {
    std::vector<std::size_t> kept(n);
    for (std::size_t i = 0; i < n; ++i) kept[i] = i;
    trend::Series s = readings.only(kept);
    const std::vector<double> rounding(n, division / std::sqrt(12));
    trend::count_rounding(s, std::span{noted}.first(n), rounding);
    return s;
  }
};

/// A digit, ten digits, a neighbouring one, or another bottle.
inline double any_slip(World& world) {
  const double kind = world.uniform(0, 1);
  const double size = kind < 0.30   ? 0.010
                      : kind < 0.55 ? 0.001 * std::floor(world.uniform(2, 10))
                      : kind < 0.65 ? 0.100
                                    : world.uniform(0.003, 0.030);
  return world.uniform(0, 1) < 0.5 ? -size : size;
}

/// Up to six thousandths, mostly one.
inline double any_bubbles(World& world) {
  const double size = std::min(-0.0013 * std::log(1 - world.uniform(0, 1)), 0.006);
  return world.uniform(0, 1) < 0.6 ? size : 0;
}

/// Days on which somebody reads: one in seven is missed.
inline std::vector<double> days_of_reading(World& world, double last) {
  const double step = last >= 40 && world.uniform(0, 1) < 0.5 ? 2 : 1;
  std::vector<double> days;
  for (double day = 0; day < last; day += step) {
    const bool missed = world.uniform(0, 1) < 0.15;
    const double at = day + 0.1 + world.uniform(0, 0.15);
    if (day == 0 || !missed) days.push_back(at);
  }
  return days;
}

/// A ferment whose original, fall and course are known, and which takes about so many days, with
/// what is read of it.
inline Notes with_readings(World& world, Notes n, double days, const Conditions& conditions) {
  n.division = world.uniform(0, 1) < 0.65 ? 0.002 : 0.001;
  // To a quarter of a division, to a half, to whole ones. What the eye errs by comes to the stated
  // uncertainty together with the rounding, and never to less than a seventh of a division.
  constexpr std::array parts{0.25, 0.5, 0.5, 1.0};
  const double step = n.division * parts.at(static_cast<std::size_t>(world.uniform(0, 4)));
  constexpr double of_thermometer = 0.00006;
  const double eye = n.division / 2 / std::sqrt(6), rounding = step / std::sqrt(12);
  const double least_error = 0.144 * n.division;
  const double error = conditions.times_error * std::sqrt(std::max(eye * eye - rounding * rounding,
                                                                   least_error * least_error));
  n.real_u = std::hypot(error, rounding, of_thermometer);
  const double shared = world.uniform(-0.5, 0.5) * n.division;
  n.readings.days = days_of_reading(world, std::min(1.6 * days + 12, 75.0));
  n.readings.errors = numeric::SharedErrors{n.readings.size()};
  const bool first_clear = world.uniform(0, 1) < 0.5;
  for (std::size_t i = 0; i < n.readings.size(); ++i) {
    const bool fizzy = (conditions.fizzy || conditions.fizzy_unmarked) &&
                       world.uniform(0, 1) < 1.0 / 3 && !(i == 0 && first_clear);
    const double there = n.gravity(n.readings.days[i]) + shared + world.normal(error) +
                         (fizzy ? any_bubbles(world) : 0);
    const auto rounded = [step](double x) { return std::round(x / step) * step; };
    const bool slips = world.uniform(0, 1) < conditions.slips;
    n.slipped.push_back(slips ? rounded(any_slip(world)) : 0);
    const double shown = rounded(there) + n.slipped.back();
    n.noted.emplace_back(shown, n.division);
    n.readings.gravity.push_back(shown + world.normal(of_thermometer));
    n.readings.lifted.push_back(fizzy && !conditions.fizzy_unmarked);
    n.readings.errors.set_own(i, std::hypot(eye, of_thermometer));
    n.readings.errors.add_share(i, 0, n.division / 2);
  }
  return n;
}

inline Notes any_notes(World& world, Shape shape, const Conditions& conditions) {
  Notes n;
  const bool weak = world.uniform(0, 1) < 0.6;
  n.original = weak ? world.uniform(1.015, 1.030) : world.uniform(1.030, 1.090);
  n.whole_fall = shape == Shape::none ? 0 : (n.original - 1) * world.uniform(0.4, 1.05);
  const double days =
      shape == Shape::slow ? world.uniform(15, 120) : 4 * std::pow(15, world.uniform(0, 1));
  n.done = done_of(world, shape, days);
  return with_readings(world, std::move(n), days, conditions);
}

}  // namespace areo::property
