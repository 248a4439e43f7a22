#pragma once
// Bracketed root of a function of one variable (Brent's method of the GNU Scientific Library).
#include <functional>
#include <string_view>

namespace areo::numeric {

/// Finds x in [lo, hi] with f(x) = 0.
/// @param f     continuous; must change sign over the bracket. An exception thrown by `f` reaches
///              the caller unchanged and leaves nothing behind.
/// @param lo,hi bracket, lo < hi, finite
/// @param x_tol absolute tolerance in x, > 0
/// @param what  the unknown, for the error message ("extract")
/// @throws      Error{domain} if f does not change sign over the bracket or is NaN at an end;
///              Error{no_convergence} after 100 steps
[[nodiscard]] double find_root(const std::function<double(double)>& f, double lo, double hi,
                               double x_tol, std::string_view what);

}  // namespace areo::numeric
