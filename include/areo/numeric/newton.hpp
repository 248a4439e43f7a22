// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Newton's method for two equations in two unknowns. Fast where it works; the caller has a slower,
// bracketed way for where it does not.
#include <array>
#include <functional>
#include <optional>

namespace areo::numeric {

using Pair = std::array<double, 2>;

/// Finds x with f(x) = (0, 0).
/// @param f      smooth; may throw Error where it is not defined, which counts as not found
/// @param start  near the solution
/// @param step   for the differences that stand for derivatives, > 0, in each unknown
/// @param x_tol  the last step is smaller than this in each unknown
/// @return       nothing if 20 steps do not get there, or if the equations are nearly the same
[[nodiscard]] std::optional<Pair> newton(const std::function<Pair(const Pair&)>& f,
                                         const Pair& start, double step, double x_tol);

}  // namespace areo::numeric
