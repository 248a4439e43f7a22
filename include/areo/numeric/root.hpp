// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Bracketed root of a function of one variable (Brent's method of the GNU Scientific Library).
#include <functional>
#include <string_view>

namespace areo::numeric {

/// What is solved for, and the value that it has to make, for the message if there is none: "no
/// extract mass fraction from -0.05 to 0.83 has a density of 700 kg/m³".
struct Sought {
  std::string_view unknown;  ///< "extract mass fraction"
  std::string_view given;    ///< "density"
  double value;              ///< of what is given
  std::string_view unit;     ///< likewise
  std::string_view hint;     ///< what a person can do about it
};

/// Finds x in [lo, hi] with f(x) = 0.
/// @param f     continuous; must change sign over the bracket. An exception thrown by `f` reaches
///              the caller unchanged and leaves nothing behind.
/// @param lo,hi bracket, lo < hi, finite
/// @param x_tol absolute tolerance in x, > 0
/// @throws      Error{domain} if f does not change sign over the bracket or is NaN at an end;
///              Error{no_convergence} after 100 steps
[[nodiscard]] double find_root(const std::function<double(double)>& f, double lo, double hi,
                               double x_tol, const Sought& sought);

}  // namespace areo::numeric
