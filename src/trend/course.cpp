#include "areo/trend/course.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <limits>

#include "areo/core/error.hpp"
#include "areo/numeric/quantile.hpp"

namespace areo::trend {
namespace {

// Parameters of the fit, in this order.
enum Place : std::size_t { start_at, final_at, end_at, rate_at, parameters };
using Theta = std::array<double, parameters>;

// Difference of AICc from which on the other form has little support [burnham2002].
constexpr double as_good = 4;
using uncertainty::Interval;
constexpr double nan = std::numeric_limits<double>::quiet_NaN();

// z at which all but this part is consumed.
double z_of_rest(Form form, double rest) {
  return form == Form::logistic ? std::log((1 - rest) / rest) : -std::log(-std::log1p(-rest));
}

double consumed(Form form, double z) {
  return form == Form::logistic ? 1 / (1 + std::exp(-z)) : std::exp(-std::exp(-z));
}

double middle(Form form, const Theta& p, double near) {
  return p[end_at] - z_of_rest(form, near / (p[start_at] - p[final_at])) / p[rate_at];
}

// NaN where there is no such ferment.
double gravity_at(Form form, const Theta& p, double near, double day) {
  const double whole = p[start_at] - p[final_at];
  if (!(whole > near && p[rate_at] > 0)) return nan;
  return p[start_at] - whole * consumed(form, p[rate_at] * (day - middle(form, p, near)));
}

// A form with the points it goes through.
struct Task {
  Form form;
  const Series* series;
  double near;

  [[nodiscard]] numeric::CurveFit fit(const Theta& start) const {
    const auto curve = [this](double day, std::span<const double> q) {
      return gravity_at(form, {q[0], q[1], q[2], q[3]}, near, day);
    };
    return numeric::fit_curve(curve, series->days, series->gravity, series->covariance, start);
  }
  // The others, while one of them is held.
  [[nodiscard]] numeric::CurveFit fit_others(const Theta& start, Place held) const {
    const auto whole = [&](std::span<const double> q) {
      Theta p = start;
      for (std::size_t i = 0, k = 0; i < parameters; ++i)
        if (i != held) p[i] = q[k++];
      return p;
    };
    std::vector<double> others;
    for (std::size_t i = 0; i < parameters; ++i)
      if (i != held) others.push_back(start[i]);
    const auto curve = [&](double day, std::span<const double> q) {
      return gravity_at(form, whole(q), near, day);
    };
    numeric::CurveFit fit =
        numeric::fit_curve(curve, series->days, series->gravity, series->covariance, others);
    const Theta p = whole(fit.parameters);
    fit.parameters.assign(p.begin(), p.end());
    return fit;
  }
};

Theta theta_of(const numeric::CurveFit& fit) {
  Theta p{};
  std::copy(fit.parameters.begin(), fit.parameters.end(), p.begin());
  return p;
}

// The best of some starts: the end may lie near what was read last, or far below it.
std::optional<numeric::CurveFit> best_fit(const Task& task) {
  const auto& [days, gravity, covariance] = *task.series;
  const double hi = *std::max_element(gravity.begin(), gravity.end());
  const double lo = *std::min_element(gravity.begin(), gravity.end());
  double steepest = 0;
  for (std::size_t i = 1; i < days.size(); ++i)
    if (days[i] > days[i - 1])
      steepest = std::max(steepest, (gravity[i - 1] - gravity[i]) / (days[i] - days[i - 1]));
  std::optional<numeric::CurveFit> best;
  for (const double beyond : {0.02, 0.3, 1.0})
    for (const double slope : {0.6, 1.2}) {
      const double final = lo - beyond * (hi - lo);
      const double whole = hi - final;
      if (!(whole > task.near && steepest > 0)) continue;
      const double rate = 4 * slope * steepest / whole;
      const auto half = std::find_if(gravity.begin(), gravity.end(),
                                     [&](double g) { return g < hi - whole / 2; });
      const double day = half == gravity.end()
                             ? days.back()
                             : days[static_cast<std::size_t>(half - gravity.begin())];
      const double end = day + z_of_rest(task.form, task.near / whole) / rate;
      try {
        const auto fit = task.fit({hi, final, end, rate});
        if (!best || fit.chi_squared < best->chi_squared) best = fit;
      } catch (const Error&) {  // from there no way leads to a curve
      }
    }
  return best;
}

// Where a parameter goes until chi-squared has risen by so much; nothing if it never does.
std::optional<double> profile_end(const Task& task, const numeric::CurveFit& fit, Place which,
                                  double direction, double rise) {
  const double u = std::sqrt(fit.covariance(which, which));
  Theta inside = theta_of(fit);
  double at = inside[which];
  const auto excess = [&](double value, Theta& from) {
    Theta p = from;
    p[which] = value;
    const auto held = task.fit_others(p, which);
    from = theta_of(held);
    return held.chi_squared - fit.chi_squared - rise;
  };
  constexpr int most_steps = 24;
  double step = 0.5 * u;
  try {
    for (int i = 0; i < most_steps; ++i, step *= 1.3) {
      const double next = at + direction * step;
      Theta beyond = inside;
      if (excess(next, beyond) < 0) {
        at = next;
        inside = beyond;
        continue;
      }
      double lo = at, hi = next;  // halved until it is far below what is printed
      for (int halving = 0; halving < 8; ++halving) {
        const double mid = (lo + hi) / 2;
        Theta p = inside;
        (excess(mid, p) < 0 ? lo : hi) = mid;
      }
      return (lo + hi) / 2;
    }
  } catch (const Error&) {  // the others run away: it is open on this side
  }
  return std::nullopt;
}

std::optional<Interval> profile(const Task& task, const numeric::CurveFit& fit, Place which,
                                double rise) {
  const auto lo = profile_end(task, fit, which, -1, rise);
  const auto hi = profile_end(task, fit, which, 1, rise);
  if (!lo || !hi) return std::nullopt;
  return Interval{*lo, *hi};
}

double aicc_of(const numeric::CurveFit& fit, std::size_t n) {
  constexpr double k = parameters;
  return fit.chi_squared + 2 * k + 2 * k * (k + 1) / (static_cast<double>(n) - k - 1);
}

// Residuals over √(V - J C Jᵀ) of each point: what is left of its uncertainty behind the fit.
std::vector<double> studentized(const Task& task, const numeric::CurveFit& fit) {
  const Theta p = theta_of(fit);
  std::vector<double> all;
  for (std::size_t i = 0; i < task.series->size(); ++i) {
    const double day = task.series->days[i];
    Theta slope{};
    for (std::size_t j = 0; j < parameters; ++j) {
      const double h = 1e-4 * std::sqrt(fit.covariance(j, j));
      Theta above = p, below = p;
      above[j] += h;
      below[j] -= h;
      slope[j] = (gravity_at(task.form, above, task.near, day) -
                  gravity_at(task.form, below, task.near, day)) /
                 (2 * h);
    }
    double variance = task.series->covariance(i, i);
    for (std::size_t j = 0; j < parameters; ++j)
      for (std::size_t k = 0; k < parameters; ++k)
        variance -= slope[j] * fit.covariance(j, k) * slope[k];
    const double residual = task.series->gravity[i] - gravity_at(task.form, p, task.near, day);
    // Nothing is left where the curve goes through the point whatever it shows.
    const double least = 1e-6 * task.series->covariance(i, i);
    all.push_back(variance > least ? residual / std::sqrt(variance) : 0);
  }
  return all;
}

struct Candidate {
  Task task;
  numeric::CurveFit fit;
  double aicc;
};

std::vector<Candidate> candidates(const Series& series, double near) {
  std::vector<Candidate> all;
  for (const Form form : {Form::logistic, Form::gompertz}) {
    const Task task{form, &series, near};
    if (auto fit = best_fit(task)) {
      const double aicc = aicc_of(*fit, series.size());
      all.push_back({task, std::move(*fit), aicc});
    }
  }
  std::sort(all.begin(), all.end(),
            [](const Candidate& a, const Candidate& b) { return a.aicc < b.aicc; });
  return all;
}

bool tight(const Interval& final, double seen) { return final.hi - final.lo < seen; }

// The series with so many readings more, as the curve foretells them and as sure as the last one.
Series continued(const Series& s, const Course& course, int more) {
  const std::size_t n = s.size();
  const double step = (s.days.back() - s.days.front()) / static_cast<double>(n - 1);
  Series longer{s.days, s.gravity, numeric::Covariance{n + static_cast<std::size_t>(more)}};
  for (std::size_t i = 0; i < n; ++i) longer.gravity[i] = course.gravity(s.days[i]);
  for (std::size_t i = n; i < n + static_cast<std::size_t>(more); ++i) {
    longer.days.push_back(s.days.back() + step * static_cast<double>(i - n + 1));
    longer.gravity.push_back(course.gravity(longer.days.back()));
  }
  for (std::size_t i = 0; i < longer.size(); ++i)
    for (std::size_t j = 0; j <= i; ++j)
      longer.covariance.set(i, j,
                            i == j ? s.covariance(std::min(i, n - 1), std::min(i, n - 1))
                                   : s.covariance(std::min(i, n - 1), std::min(j, n - 2)));
  return longer;
}

// The fewest readings more with which the curve would be known well enough.
int readings_that_would_do(const Series& s, const Course& course, double rise) {
  constexpr int most = 20;
  for (int more = 1; more <= most; ++more) {
    const Series longer = continued(s, course, more);
    const Task task{course.form, &longer, course.near};
    try {
      const auto fit = task.fit({course.start, course.final, course.end_day, course.rate});
      const double half = std::sqrt(rise * fit.covariance(final_at, final_at));
      if (tight({-half, half}, longer.gravity.front() - longer.gravity.back())) return more;
    } catch (const Error&) {  // still too few
    }
  }
  return 0;
}

}  // namespace

double Course::gravity(double day) const {
  return gravity_at(form, {start, final, end_day, rate}, near, day);
}

double Course::steepest_day() const { return middle(form, {start, final, end_day, rate}, near); }

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
  if (fit.chi_squared > numeric::chi_squared_quantile(0.95, fit.degrees_of_freedom))
    c.widened = std::sqrt(fit.residual_variance());
  c.studentized = studentized(task, fit);
  const double factor = numeric::normal_quantile((1 + level) / 2) * c.widened;
  const double rise = factor * factor;
  std::optional<Interval> final, end;
  for (const Candidate& candidate : all) {
    if (candidate.aicc > aicc + as_good) break;
    const auto f = profile(candidate.task, candidate.fit, final_at, rise);
    const auto e = profile(candidate.task, candidate.fit, end_at, rise);
    if (!f || !e)
      return {.refused = {"where it ends is still open: these readings go with very different ends",
                          readings_that_would_do(s, c, rise)}};
    final = final ? Interval{std::min(final->lo, f->lo), std::max(final->hi, f->hi)} : *f;
    end = end ? Interval{std::min(end->lo, e->lo), std::max(end->hi, e->hi)} : *e;
  }
  c.final_interval = *final;
  c.end_interval = *end;
  if (!tight(*final, seen.estimate))
    return {.refused = {"where it ends is not known to half of the fall that was seen",
                        readings_that_would_do(s, c, rise)}};
  return {.course = c};
}

}  // namespace areo::trend
