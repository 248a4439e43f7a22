// SPDX-License-Identifier: GPL-3.0-or-later
// The day on which a strength passes a limit must lie in its interval as often as that says.
// Ferments of both forms; strengths as a hydrometer gives them: an error of the original gravity
// that all share, one of the method that grows with the strength, and one of each reading.
#include "areo/trend/crossing.hpp"

#include <gtest/gtest.h>

#include "ferment.hpp"

namespace areo::property {
namespace {

using trend::Form;

constexpr double shared = 0.08, method = 0.025, own = 0.07;  // % vol, relative, % vol

// Counted downwards.
trend::Series strengths(World& world, const Ferment& f, int days) {
  trend::Series s;
  const auto n = static_cast<std::size_t>(days);
  s.errors = numeric::SharedErrors{n};
  const double offset = world.normal(shared), factor = 1 + world.normal(method);
  for (std::size_t i = 0; i < n; ++i) {
    s.days.push_back(static_cast<double>(i));
    s.gravity.push_back(f.gravity(s.days.back()) * factor + offset + world.normal(own));
  }
  for (std::size_t i = 0; i < n; ++i) {
    s.errors.set_own(i, own);
    s.errors.add_share(i, 0, shared);
    s.errors.add_share(i, 1, method * s.gravity[i]);
  }
  return s;
}

// The day of a strength, halved between the first and a late one.
double day_of(const Ferment& f, double value) {
  double lo = -30, hi = 60;
  for (int i = 0; i < 60; ++i) {
    const double mid = (lo + hi) / 2;
    (f.gravity(mid) > value ? lo : hi) = mid;
  }
  return lo;
}

class EachLimit : public testing::TestWithParam<double> {};

TEST_P(EachLimit, IsPassedWithinItsInterval) {
  Draws draws;
  SCOPED_TRACE(draws.trace());
  World world{draws};
  constexpr int ferments = 3000;
  int told = 0, inside = 0;
  for (int i = 0; i < ferments; ++i) {
    const Form form = i % 2 == 0 ? Form::logistic : Form::gompertz;
    const Ferment f{form, 0, -world.uniform(4, 7), world.uniform(2.5, 4.5),
                    world.uniform(0.8, 1.4)};
    const auto c = crossing_of(strengths(world, f, 12), 0.25, -GetParam());
    if (!c.refused.empty() || !c.day) continue;
    ++told;
    const double day = day_of(f, -GetParam());
    const bool before = c.lo && day < *c.lo, after = c.hi && day > *c.hi;
    inside += !before && !after;
  }
  EXPECT_GT(told, ferments * 95 / 100);
  // Of 3000 cases 90 % are held by 88 % to 92 % within 3.6 of their standard deviations.
  const double part = static_cast<double>(inside) / told;
  EXPECT_GE(part, 0.88);
  EXPECT_LE(part, 0.92);
}

INSTANTIATE_TEST_SUITE_P(Crossing, EachLimit, testing::Values(0.5, 1.2, 3.0));

}  // namespace
}  // namespace areo::property
