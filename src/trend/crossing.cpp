// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/trend/crossing.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "areo/core/error.hpp"
#include "areo/trend/growth_curve.hpp"
#include "profile.hpp"

namespace areo::trend {
namespace {

// The same fit with the day of passing in place of the end; nothing if it does not get there.
std::optional<Candidate> with_crossing(const Candidate& c, double value) {
  const Theta p = theta_of(c.fit);
  if (!(p[start_at] > value && value > p[final_at])) return std::nullopt;
  Candidate crossing = c;
  crossing.task.mark = {.passed = value};
  Theta start = p;
  // Of two marks on one curve the middle is the same.
  start[end_at] += middle(c.task.form, p, c.task.mark) - middle(c.task.form, p, crossing.task.mark);
  try {
    crossing.fit = crossing.task.fit(start);
  } catch (const Error&) {  // where it passes cannot be told apart from the rest of the curve
    return std::nullopt;
  }
  return crossing;
}

}  // namespace

Crossing crossing_of(const Series& s, double near, double value, double level) {
  if (!(near > 0) || !std::isfinite(value) || !(level > 0 && level < 1))
    throw Error{Errc::domain,
                "a crossing needs a nearness above zero, a value, and a level between 0 and 1"};
  if (s.size() < least_points)
    return {.refused = fmt::format("{} reading{} too few for a curve", s.size(),
                                   s.size() == 1 ? " is" : "s are")};
  const std::vector<Candidate> all = candidates(s, near);
  if (all.empty()) return {.refused = "no curve goes through these readings"};
  const double rise = rise_for(level, widening(all.front().fit));
  const auto as_good_as_best = [&](const Candidate& candidate) {
    return candidate.aicc <= all.front().aicc + as_good;
  };
  Crossing c;
  if (theta_of(all.front().fit)[start_at] <= value)
    return {.refused = "the curve through the readings begins beyond it"};
  if (!with_crossing(all.front(), value))
    return {.refused = "the curve through the readings does not get there"};
  bool open_lo = false, open_hi = false;
  for (const Candidate& candidate : all) {
    if (!as_good_as_best(candidate)) break;
    const auto passing = with_crossing(candidate, value);
    if (!passing) {
      open_hi = true;  // by the other form it never gets there
      continue;
    }
    if (!c.day) c.day = passing->fit.parameters[end_at];
    const auto lo = profile_end(passing->task, passing->fit, end_at, -1, rise);
    const auto hi = profile_end(passing->task, passing->fit, end_at, 1, rise);
    open_lo = open_lo || !lo;
    open_hi = open_hi || !hi;
    if (lo) c.lo = std::min(*lo, c.lo.value_or(*lo));
    if (hi) c.hi = std::max(*hi, c.hi.value_or(*hi));
  }
  if (open_lo || c.lo < s.days.front()) c.lo.reset();
  if (open_hi) c.hi.reset();
  return c;
}

}  // namespace areo::trend
