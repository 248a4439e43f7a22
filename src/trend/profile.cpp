#include "profile.hpp"

#include <algorithm>
#include <cmath>

#include "areo/core/error.hpp"
#include "areo/numeric/quantile.hpp"
#include "areo/numeric/root.hpp"

namespace areo::trend {

std::optional<double> profile_end(const Task& task, const numeric::CurveFit& fit, Place which,
                                  double direction, double rise) {
  const double u = std::sqrt(fit.covariance(which, which)), goal = std::sqrt(rise);
  Theta inside = theta_of(fit);
  // In standard uncertainties beyond the goal: for a straight curve a line of slope 1.
  const auto beyond = [&](double t) {
    Theta p = inside;
    p[which] = fit.parameters[which] + direction * t * u;
    const auto held = task.fit_others(p, which);
    const double far = std::sqrt(std::max(held.chi_squared - fit.chi_squared, 0.0)) - goal;
    if (far < 0) inside = theta_of(held);
    return far;
  };
  constexpr int most_steps = 12;
  constexpr double negligible = 1e-7;  // the same seconds on every machine
  try {
    double lo = 0, hi = goal;
    for (int i = 0; i < most_steps; ++i, lo = hi, hi *= 1.4)
      if (beyond(hi) >= 0)
        return fit.parameters[which] +
               direction * u * numeric::find_root(beyond, lo, hi, negligible, "an interval's end");
  } catch (const Error&) {  // the others run away: it is open on this side
  }
  return std::nullopt;
}

double widening(const numeric::CurveFit& fit) {
  return fit.chi_squared > numeric::chi_squared_quantile(0.95, fit.degrees_of_freedom)
             ? std::sqrt(fit.residual_variance())
             : 1;
}

double rise_for(double level, double widened) {
  const double factor = numeric::normal_quantile((1 + level) / 2) * widened;
  return factor * factor;
}

}  // namespace areo::trend
