// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// The root of a nearly straight function, from two good guesses.
#include <cmath>
#include <optional>

namespace areo::numeric {

/// Where f is nearly straight it takes about five calls, and none at the ends. Nothing where it
/// leads outside of lo .. hi or to no end: find_root() then finds the root or says why there is
/// none.
/// @param f       continuous, with one root at most in lo .. hi
/// @param a,b     two different guesses within lo .. hi
/// @param last_step  a step this small ends the search; the error of the root is far smaller, by
///                   about the step before it
template <class F>
[[nodiscard]] std::optional<double> secant(const F& f, double a, double b, double lo, double hi,
                                           double last_step = 1e-10) {
  constexpr int max_steps = 30;
  double f_a = f(a);
  double f_b = f(b);
  for (int step = 0; step < max_steps; ++step) {
    if (f_b == 0) return b;
    const double x = b - f_b * (b - a) / (f_b - f_a);
    if (!(x >= lo && x <= hi)) return std::nullopt;  // NaN lands here too
    if (std::abs(x - b) <= last_step) return x;
    a = b;
    f_a = f_b;
    b = x;
    f_b = f(b);
  }
  return std::nullopt;
}

}  // namespace areo::numeric
