#include "areo/trend/course.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <memory>
#include <numeric>
#include <utility>

#include "areo/core/error.hpp"
#include "form_fit.hpp"
#include "profile.hpp"

namespace areo::trend {
namespace {

using uncertainty::Interval;

std::optional<Interval> profile(const Task& task, const numeric::CurveFit& fit, Place which,
                                double rise) {
  const auto lo = profile_end(task, fit, which, -1, rise);
  const auto hi = profile_end(task, fit, which, 1, rise);
  if (!lo || !hi) return std::nullopt;
  return Interval{*lo, *hi};
}

bool tight(const Interval& final, double seen) { return final.hi - final.lo < seen; }

// The series with so many readings more, as the curve foretells them and as sure as the last one.
Series continued(const Series& s, const Course& course, int more) {
  const std::size_t n = s.size();
  const double step = (s.days.back() - s.days.front()) / static_cast<double>(n - 1);
  std::vector<std::size_t> all(n + static_cast<std::size_t>(more), n - 1);
  std::iota(all.begin(), all.begin() + static_cast<std::ptrdiff_t>(n), 0);
  Series longer = s.only(all);
  for (std::size_t i = 0; i < longer.size(); ++i) {
    if (i >= n) longer.days[i] = s.days.back() + step * static_cast<double>(i - n + 1);
    longer.gravity[i] = course.gravity(longer.days[i]);
  }
  return longer;
}

// The fewest readings more with which the curve would be known well enough.
int readings_that_would_do(const Series& s, const Course& course, double rise) {
  constexpr int most = 20;
  for (int more = 1; more <= most; ++more) {
    const Series longer = continued(s, course, more);
    const Task task{course.form,
                    &longer,
                    {course.near},
                    std::make_shared<const numeric::Covariance>(longer.errors.matrix())};
    try {
      const auto fit = task.fit({course.start, course.final, course.end_day, course.rate});
      const double half = std::sqrt(rise * fit.covariance(final_at, final_at));
      if (tight({-half, half}, longer.gravity.front() - longer.gravity.back())) return more;
    } catch (const Error&) {  // still too few
    }
  }
  return 0;
}

// The better curve, without intervals.
Course course_of(const std::vector<Candidate>& all, double near, double level) {
  const auto& [task, fit, aicc] = all.front();
  const Theta p = theta_of(fit);
  Course c;
  c.form = task.form;
  c.start = p[start_at];
  c.final = p[final_at];
  c.end_day = p[end_at];
  c.rate = p[rate_at];
  c.near = near;
  c.level = level;
  c.chi_squared = fit.chi_squared;
  c.degrees_of_freedom = fit.degrees_of_freedom;
  c.aicc = aicc;
  if (all.size() > 1) c.aicc_of_other = all[1].aicc;
  c.widened = widening(fit);
  for (std::size_t i = 0; i < parameters; ++i)
    for (std::size_t j = i; j < parameters; ++j)
      c.covariance.set(i, j, fit.covariance(i, j) * c.widened * c.widened);
  return c;
}

// They hold what every form that does about as well says. False if an end stays open.
bool add_intervals(Course& c, const std::vector<Candidate>& all, double rise) {
  std::optional<Interval> final, end;
  for (const Candidate& candidate : all) {
    if (candidate.aicc > c.aicc + as_good) break;
    const auto f = profile(candidate.task, candidate.fit, final_at, rise);
    const auto e = profile(candidate.task, candidate.fit, end_at, rise);
    if (!f || !e) return false;
    final = final ? Interval{std::min(final->lo, f->lo), std::max(final->hi, f->hi)} : *f;
    end = end ? Interval{std::min(end->lo, e->lo), std::max(end->hi, e->hi)} : *e;
  }
  c.final_interval = *final;
  c.end_interval = *end;
  return true;
}

}  // namespace

double Course::gravity(double day) const {
  return gravity_at(form, {start, final, end_day, rate}, {near}, day);
}

double Course::uncertainty(double day) const {
  return uncertainty_at(form, {start, final, end_day, rate}, {near}, covariance, day);
}

double Course::steepest_day() const { return middle(form, {start, final, end_day, rate}, {near}); }

double Course::steepest_fall() const {
  // dS/dz at z = 0: 1/4, 1/e.
  return (start - final) * rate * (form == Form::logistic ? 0.25 : std::exp(-1.0));
}

double Course::lag_day() const {
  // z where the tangent at z = 0 meets S = 0: -2, -1.
  return steepest_day() - (form == Form::logistic ? 2 : 1) / rate;
}

Outlook outlook_of(const Series& s, double near, double level) {
  if (!(near > 0) || !(level > 0 && level < 1))
    throw Error{Errc::domain, "a course needs a nearness above zero and a level between 0 and 1"};
  if (s.size() < least_points)
    return {.refused = {fmt::format("{} reading{} too few for a curve", s.size(),
                                    s.size() == 1 ? " is" : "s are"),
                        static_cast<int>(least_points - s.size())}};
  const uncertainty::Value seen = s.fall(0, s.size() - 1);
  if (seen.estimate <= seen.expanded())
    return {.refused = {"it has not fallen by more than these readings can tell"}};
  const std::vector<Candidate> all = candidates(s, near);
  if (all.empty()) return {.refused = {"no curve goes through these readings"}};
  Outlook o;
  o.studentized = studentized(all.front());
  Course c = course_of(all, near, level);
  const double rise = rise_for(level, c.widened);
  if (!add_intervals(c, all, rise))
    o.refused = {"where it ends is still open: these readings go with very different ends",
                 readings_that_would_do(s, c, rise)};
  else if (!tight(c.final_interval, seen.estimate))
    o.refused = {"where it ends is not known to half of the fall that was seen",
                 readings_that_would_do(s, c, rise)};
  else
    o.course = std::move(c);
  return o;
}

}  // namespace areo::trend
