// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/numeric/newton.hpp"

#include <cmath>

#include "areo/core/error.hpp"

namespace areo::numeric {
namespace {

// One Newton step; nothing if the two equations say the same there.
std::optional<Pair> newton_step(const std::function<Pair(const Pair&)>& f, const Pair& x,
                                double step) {
  const Pair y = f(x);
  const Pair a = f({x[0] + step, x[1]});
  const Pair b = f({x[0], x[1] + step});
  const double j00 = (a[0] - y[0]) / step, j01 = (b[0] - y[0]) / step;
  const double j10 = (a[1] - y[1]) / step, j11 = (b[1] - y[1]) / step;
  const double determinant = j00 * j11 - j01 * j10;
  constexpr double least_share = 1e-9;
  if (!(std::abs(determinant) > least_share * (std::abs(j00 * j11) + std::abs(j01 * j10))))
    return std::nullopt;  // NaN lands here too
  return Pair{-(y[0] * j11 - y[1] * j01) / determinant, -(y[1] * j00 - y[0] * j10) / determinant};
}

}  // namespace

std::optional<Pair> newton(const std::function<Pair(const Pair&)>& f, const Pair& start,
                           double step, double x_tol) {
  constexpr int most_steps = 20;
  Pair x = start;
  try {
    for (int i = 0; i < most_steps; ++i) {
      const auto d = newton_step(f, x, step);
      if (!d) return std::nullopt;
      x = {x[0] + (*d)[0], x[1] + (*d)[1]};
      if (std::abs((*d)[0]) < x_tol && std::abs((*d)[1]) < x_tol) return x;
    }
  } catch (const Error&) {
    // Expected where a step leaves the range of f.
  }
  return std::nullopt;
}

}  // namespace areo::numeric
