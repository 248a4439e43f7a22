// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// A world in which the truth is known: readings get errors drawn from what areo states about its
// inputs, and a stated interval has to hold the truth as often as it claims.
#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <numbers>

#include "areo/instruments/thermometer.hpp"
#include "draws.hpp"

namespace areo::property {

inline constexpr int cases = 20'000;
// 94 % to 96 %, as often as a 95 % interval has to hold, with the sampling spread of 20 000 cases
// (0.15 %) inside.
inline constexpr double least = 0.94, most = 0.96;

/// Cases of a simulation: 4 000, or as many as AREO_TEST_CASES says.
inline int cases_wanted() {
  const char* text = std::getenv("AREO_TEST_CASES");
  return text != nullptr ? std::max(std::atoi(text), 100) : 4000;
}
/// 94 % to 96 %, with three times the spread of a count around either end.
inline void expect_coverage(int held, int of) {
  const double slack = 3 * std::sqrt(0.95 * 0.05 / of);
  testing::Test::RecordProperty("held_percent", std::to_string(100.0 * held / of));
  EXPECT_GE(held, (least - slack) * of) << "of " << of;
  EXPECT_LE(held, (most + slack) * of) << "of " << of;
}

class World {
 public:
  explicit World(Draws& draws) : draws_{&draws} {}

  double normal(double u) {  // Box and Muller
    const double radius = std::sqrt(-2 * std::log(1 - draws_->uniform(0, 1)));
    return u * radius * std::cos(draws_->uniform(0, 2 * std::numbers::pi));
  }
  double rectangular(double half_width) { return draws_->uniform(-half_width, half_width); }
  double triangular(double half_width) {
    return rectangular(half_width / 2) + rectangular(half_width / 2);
  }
  double uniform(double lo, double hi) { return draws_->uniform(lo, hi); }

  /// A thermometer shows a true temperature.
  instruments::TemperatureReading reads(double true_c) {
    instruments::TemperatureReading t;
    t.indication_c = true_c - rectangular(t.half_width_c);
    return t;
  }

 private:
  Draws* draws_;
};

}  // namespace areo::property
