// SPDX-License-Identifier: GPL-3.0-or-later
// Who reads nothing but whole divisions, now and then one between them, must not be told that a
// slow fall is rest; and who reads finer must not wait longer for it.
#include "areo/trend/whole_divisions.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <cstddef>

#include "ferments.hpp"
#include "figures.hpp"
#include "verdicts.hpp"

namespace areo::property {
namespace {

constexpr double division = 0.002;
constexpr int series_of_each = 30;

// Falls as most do, and goes on by so much a day; read once a day, most days, for two months.
Notes slow_end(World& world, double per_day, double parts_of_division, int between_marks) {
  Notes n;
  n.division = division;
  n.original = world.uniform(1.015, 1.060);
  const double most = (n.original - 1) * world.uniform(0.35, 0.9), days = world.uniform(4, 15);
  const double last = days + 58;
  n.whole_fall = most + per_day * last;
  n.done = [=](double day) {
    return (most * (1 - std::exp(-4 * day / days)) + per_day * day) / (most + per_day * last);
  };
  constexpr double of_eye = 0.1, of_thermometer = 0.00006;  // of a division; SG
  n.real_u = division * std::hypot(of_eye, parts_of_division / std::sqrt(12));
  for (double day = 0; day < last; ++day)
    if (day == 0 || world.uniform(0, 1) > 0.1) n.readings.days.push_back(day + 0.1);
  const std::size_t size = n.readings.days.size();
  n.slipped.assign(size, 0);
  std::vector<bool> between(size);
  for (int i = 0; i < between_marks; ++i)
    between[static_cast<std::size_t>(world.uniform(0, static_cast<double>(size)))] = true;
  const double shared = world.uniform(-0.5, 0.5) * division;
  const double step = parts_of_division * division;
  n.readings.errors = numeric::SharedErrors{size};
  for (std::size_t i = 0; i < size; ++i) {
    const double there = n.gravity(n.readings.days[i]) + shared + world.normal(of_eye * division);
    const double shown = between[i] ? (std::floor(there / division) + 0.5) * division
                                    : std::round(there / step) * step;
    n.noted.emplace_back(shown, division);
    n.readings.gravity.push_back(shown + world.normal(of_thermometer));
    n.readings.errors.set_own(i, std::hypot(division / 2 / std::sqrt(6), of_thermometer));
    n.readings.errors.add_share(i, 0, division / 2);
  }
  return n;
}

TEST(WholeDivisionsStudy, ASlowEndIsNoRest) {
  Draws draws;
  SCOPED_TRACE(draws.trace());
  World world{draws};
  for (const int between_marks : {0, 1, 2}) {
    SCOPED_TRACE(between_marks);
    Count c;
    int wrong = 0;  // series, on any day
    for (const double per_day : {0.00005, 0.00008, 0.0001, 0.00015, 0.0002, 0.0003})
      for (int i = 0; i < series_of_each; ++i) {
        const Count one = judged(slow_end(world, per_day, 1, between_marks));
        wrong += one.not_harmless > 0 ? 1 : 0;
        c.add(one);
      }
    RecordProperty(fmt::format("wrong_{}", between_marks), wrong);
    RecordProperty(fmt::format("exceeded_{}", between_marks), percent(c.exceeded, c.bounds));
    expect_at_most(2, wrong, c.series, "series called steady on some day, and not harmless");
    expect_at_most(5, c.exceeded, c.bounds, "bounds of the pace exceeded");
  }
}

// Two weeks after it came to rest, on average, who reads halves or quarters is told so.
TEST(WholeDivisionsStudy, WhoReadsFinerWaitsNoLonger) {
  Draws draws;
  SCOPED_TRACE(draws.trace());
  World world{draws};
  for (const double parts : {0.5, 0.25}) {
    SCOPED_TRACE(parts);
    Count c;
    for (int i = 0; i < 3 * series_of_each; ++i) c.add(judged(slow_end(world, 0, parts, 0)));
    EXPECT_GE(c.rests_called, 0.95 * c.rests) << "of " << c.rests;
    constexpr int most_days = 17;
    EXPECT_LE(c.rest_days, most_days * c.rests_called) << "of " << c.rests_called;
    RecordProperty(fmt::format("days_{}", parts), c.rest_days / c.rests_called);
  }
}

}  // namespace
}  // namespace areo::property
