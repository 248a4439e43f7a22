// SPDX-License-Identifier: GPL-3.0-or-later
#include "form_fit.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "areo/core/error.hpp"

namespace areo::trend {
namespace {

constexpr double nan = std::numeric_limits<double>::quiet_NaN();

// z at which all but this part is consumed.
double z_of_rest(Form form, double rest) {
  return form == Form::logistic ? std::log((1 - rest) / rest) : -std::log(-std::log1p(-rest));
}

// Start and final gravity are linear in the curve: for each middle and rate the best of them follow
// from a regression of the gravities on the part consumed.
struct Rough {
  Theta theta{};
  double squares = 0;  // sum of squared residuals
};

std::optional<Rough> regression(const Task& task, double middle, double rate) {
  const std::vector<double>&days = task.series->days, &gravity = task.series->gravity;
  const auto n = static_cast<double>(days.size());
  double s_mean = 0, g_mean = 0;
  std::vector<double> part;
  for (std::size_t i = 0; i < days.size(); ++i) {
    part.push_back(consumed(task.form, rate * (days[i] - middle)));
    s_mean += part[i] / n;
    g_mean += gravity[i] / n;
  }
  double ss = 0, sg = 0, gg = 0;
  for (std::size_t i = 0; i < days.size(); ++i) {
    const double s = part[i] - s_mean, g = gravity[i] - g_mean;
    ss += s * s;
    sg += s * g;
    gg += g * g;
  }
  constexpr double least = 1e-3;  // of it has to be between the readings, or it is not seen
  const double whole = -sg / ss;
  if (!(ss > least && whole > task.mark.near)) return std::nullopt;
  const double start = g_mean + whole * s_mean;
  const double end = middle + z_of_rest(task.form, task.mark.near / whole) / rate;
  return Rough{{start, start - whole, end, rate}, gg + whole * sg};
}

// The best middle for each of some rates, from a fall that is hardly over when all readings are
// done to one between two of them; the best first.
std::vector<Rough> rough_fits(const Task& task) {
  const std::vector<double>& days = task.series->days;
  const double span = days.back() - days.front();
  std::vector<Rough> all;
  for (double rate = 2 / span; rate * span < 100; rate *= 2) {
    std::optional<Rough> best;
    const double step = std::min(span / 8, 1 / rate);
    for (double middle = days.front() - span / 4; middle < days.back() + span / 2; middle += step)
      if (const auto rough = regression(task, middle, rate))
        if (!best || rough->squares < best->squares) best = rough;
    if (best) all.push_back(*best);
  }
  std::sort(all.begin(), all.end(),
            [](const Rough& a, const Rough& b) { return a.squares < b.squares; });
  return all;
}

// From the best rough fit, and if it leads nowhere from the next.
std::optional<numeric::CurveFit> best_fit(const Task& task) {
  constexpr std::size_t tries = 2;
  const std::vector<Rough> roughs = rough_fits(task);
  for (std::size_t i = 0; i < std::min(tries, roughs.size()); ++i) try {
      return task.fit(roughs[i].theta);
    } catch (const Error&) {  // from there no way leads to a curve
    }
  return std::nullopt;
}

double aicc_of(const numeric::CurveFit& fit, std::size_t n) {
  constexpr double k = parameters;
  return fit.chi_squared + 2 * k + 2 * k * (k + 1) / (static_cast<double>(n) - k - 1);
}

}  // namespace

Theta theta_of(const numeric::CurveFit& fit) {
  Theta p{};
  std::copy(fit.parameters.begin(), fit.parameters.end(), p.begin());
  return p;
}

double consumed(Form form, double z) {
  return form == Form::logistic ? 1 / (1 + std::exp(-z)) : std::exp(-std::exp(-z));
}

double middle(Form form, const Theta& p, const Mark& mark) {
  const double rest = (mark.gravity(p) - p[final_at]) / (p[start_at] - p[final_at]);
  return p[end_at] - z_of_rest(form, rest) / p[rate_at];
}

double gravity_at(Form form, const Theta& p, const Mark& mark, double day) {
  const double at = mark.gravity(p);
  if (!(p[start_at] > at && at > p[final_at] && p[rate_at] > 0)) return nan;
  return p[start_at] -
         (p[start_at] - p[final_at]) * consumed(form, p[rate_at] * (day - middle(form, p, mark)));
}

numeric::CurveFit Task::fit(const Theta& start) const {
  const auto curve = [this](double day, std::span<const double> q) {
    return gravity_at(form, {q[0], q[1], q[2], q[3]}, mark, day);
  };
  // Of 12000 fits to simulated ferments one took more than 40; where nothing bends, it never ends.
  constexpr int most_steps = 60;
  return numeric::fit_curve(curve, series->days, series->gravity, *covariance, start, most_steps);
}

numeric::CurveFit Task::fit_others(const Theta& start, Place held) const {
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
    return gravity_at(form, whole(q), mark, day);
  };
  numeric::CurveFit fit =
      numeric::fit_curve(curve, series->days, series->gravity, *covariance, others);
  const Theta p = whole(fit.parameters);
  fit.parameters.assign(p.begin(), p.end());
  return fit;
}

std::vector<Candidate> candidates(const Series& series, double near) {
  std::vector<Candidate> all;
  const auto covariance = std::make_shared<const numeric::Covariance>(series.errors.matrix());
  for (const Form form : {Form::logistic, Form::gompertz}) {
    const Task task{form, &series, {near}, covariance};
    if (auto fit = best_fit(task)) {
      const double aicc = aicc_of(*fit, series.size());
      all.push_back({task, std::move(*fit), aicc});
    }
  }
  std::sort(all.begin(), all.end(),
            [](const Candidate& a, const Candidate& b) { return a.aicc < b.aicc; });
  return all;
}

}  // namespace areo::trend
