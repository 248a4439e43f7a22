// SPDX-License-Identifier: GPL-3.0-or-later
#include "profile.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "areo/core/error.hpp"
#include "areo/numeric/quantile.hpp"
#include "areo/numeric/root.hpp"

namespace areo::trend {

std::optional<double> profile_end(const Task& task, const numeric::CurveFit& fit, Place which,
                                  double direction, double rise) {
  const double u = std::sqrt(fit.covariance(which, which)), goal = std::sqrt(rise);
  const auto value = [&](double t) { return fit.parameters[which] + direction * t * u; };
  Theta inside = theta_of(fit);
  // In standard uncertainties beyond the goal: for a straight curve a line of slope 1. Also where
  // the others went.
  const auto beyond = [&](double t) {
    Theta p = inside;
    p[which] = value(t);
    const auto held = task.fit_others(p, which);
    const double chi_squared = std::max(held.chi_squared - fit.chi_squared, 0.0);
    return std::pair{std::sqrt(chi_squared) - goal, theta_of(held)};
  };
  constexpr int most_steps = 12;
  constexpr double negligible = 1e-6;  // the same seconds on every machine
  double lo = 0, hi = goal;
  bool bracketed = false;
  try {
    for (int i = 0; i < most_steps && !bracketed; ++i) {
      const auto [far, there] = beyond(hi);
      bracketed = far >= 0;
      if (bracketed) break;
      // Every fit between lo and hi starts from here: a start at its own solution leads nowhere.
      inside = there;
      lo = hi;
      hi *= 1.4;
    }
    if (!bracketed) return std::nullopt;
    return value(numeric::find_root([&](double t) { return beyond(t).first; }, lo, hi, negligible,
                                    {"end of an interval", "rise of chi-squared", rise, "", ""}));
  } catch (
      const Error&) {  // the others run away; or a fit between failed, and the outer end serves
    return bracketed ? std::optional{value(hi)} : std::nullopt;
  }
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
