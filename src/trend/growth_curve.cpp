// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/trend/growth_curve.hpp"

#include <limits>

#include "form_fit.hpp"
#include "profile.hpp"

namespace areo::trend {

double GrowthCurve::gravity(double day) const {
  if (!(day >= first_day && day <= last_day)) return std::numeric_limits<double>::quiet_NaN();
  return start - (start - final) * consumed(form, rate * (day - middle));
}

std::optional<GrowthCurve> course_of(const Series& s) {
  if (s.size() < least_points) return std::nullopt;
  const uncertainty::Value seen = s.fall(0, s.size() - 1);
  if (seen.estimate <= seen.expanded()) return std::nullopt;
  const std::vector<Candidate> all = candidates(s, s.value(s.size() - 1).expanded());
  if (all.empty() || widening(all.front().fit) > 1) return std::nullopt;
  const auto& [task, fit, aicc] = all.front();
  const Theta p = theta_of(fit);
  return GrowthCurve{task.form,  p[start_at],    p[final_at],  middle(task.form, p, task.mark),
                     p[rate_at], s.days.front(), s.days.back()};
}

}  // namespace areo::trend
