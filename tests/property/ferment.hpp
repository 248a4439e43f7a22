// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// A ferment whose course is known, and what a hydrometer shows of it.
#include <cmath>

#include "areo/trend/growth_curve.hpp"
#include "world.hpp"

namespace areo::property {

/// Standard uncertainties of a checked hydrometer: of what its readings share, and of each.
inline constexpr double shared_u = 0.0006, own_u = 0.0005;

struct Ferment {
  trend::Form form;
  double start, final, middle, rate;

  [[nodiscard]] double z(double day) const { return rate * (day - middle); }
  [[nodiscard]] double gravity(double day) const {
    const double done =
        form == trend::Form::logistic ? 1 / (1 + std::exp(-z(day))) : std::exp(-std::exp(-z(day)));
    return start - (start - final) * done;
  }
};

/// Once a day, up to that day.
inline trend::Series read_daily(World& world, const Ferment& f, int last_day) {
  trend::Series s;
  const auto n = static_cast<std::size_t>(last_day) + 1;
  s.errors = numeric::SharedErrors{n};
  const double offset = world.normal(shared_u);
  for (std::size_t i = 0; i < n; ++i) {
    s.days.push_back(static_cast<double>(i));
    s.gravity.push_back(f.gravity(s.days.back()) + offset + world.normal(own_u));
    s.errors.set_own(i, own_u);
    s.errors.add_share(i, 0, shared_u);
  }
  return s;
}

}  // namespace areo::property
