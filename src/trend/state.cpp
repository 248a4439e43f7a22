#include "areo/trend/state.hpp"

#include <cmath>

#include "areo/numeric/line.hpp"
#include "areo/numeric/quantile.hpp"

namespace areo::trend {
namespace {

constexpr double level = 0.95;

Fall fall(const Series& s, std::size_t from, std::size_t to) {
  return {s.days[to] - s.days[from], s.fall(from, to)};
}

// Beyond what its uncertainty alone makes of no fall.
bool fell(const Fall& f) { return f.value.estimate > f.value.expanded(level); }
bool unchanged(const Fall& f) { return std::abs(f.value.estimate) <= f.value.expanded(level); }

// Of the straight line through the last points, from the first of them to the last.
Fall along_line(const Series& s) {
  const auto line = numeric::fit_line(s.days, s.gravity, s.covariance, s.days.back());
  const double days = s.days.back() - s.days.front();
  return {days, {-line.slope * days, std::sqrt(line.var_slope) * days}, s.size()};
}

// The longest one at the end.
std::optional<Fall> steady_stretch(const Series& s) {
  for (std::size_t first = 0; first + steady_points <= s.size(); ++first) {
    if (s.days.back() - s.days[first] < steady_days) break;
    const Fall f = along_line(s.from(first));
    if (unchanged(f) && f.bound() <= steady_per_day * f.days) return f;
  }
  return std::nullopt;
}

// The point before `to` that is a step away, if there is one.
std::optional<std::size_t> step_before(const Series& s, std::size_t to) {
  for (std::size_t i = to; i-- > 0;)
    if (s.days[to] - s.days[i] >= shortest_step_days) return i;
  return std::nullopt;
}

struct Step {
  std::size_t from, to;
};

// Whether the one is slower than the other, which was picked as the fastest of so many.
bool slower(const Series& s, const Step& recent, const Step& fastest, std::size_t picked_of) {
  std::vector<double> weights(s.size());
  const auto add = [&](const Step& step, double sign) {
    const double days = s.days[step.to] - s.days[step.from];
    weights[step.from] += sign / days;
    weights[step.to] -= sign / days;
  };
  add(fastest, 1);
  add(recent, -1);
  const uncertainty::Value v = s.combination(weights);
  const double sure = 1 - (1 - level) / static_cast<double>(picked_of);
  return v.estimate > v.u * numeric::normal_quantile(sure);
}

}  // namespace

State state_of(const Series& s) {
  State state;
  if (s.size() < 2) return state;
  const std::size_t last = s.size() - 1;
  state.whole = fall(s, 0, last);
  state.steady = steady_stretch(s);
  std::vector<Step> steps;
  for (std::size_t to = 1; to < s.size(); ++to)
    if (const auto from = step_before(s, to)) steps.push_back({*from, to});
  std::optional<Step> recent, fastest;
  if (!steps.empty() && steps.back().to == last) {
    recent = steps.back();
    state.recent = fall(s, recent->from, recent->to);
    for (const Step& step : steps) {
      if (step.to > recent->from) break;  // they share nothing with the last one
      if (!fastest ||
          fall(s, step.from, step.to).per_day() > fall(s, fastest->from, fastest->to).per_day())
        fastest = step;
    }
  }
  if (fastest) state.fastest = fall(s, fastest->from, fastest->to);
  if (!fell(*state.whole))
    state.phase = Phase::lag;
  else if (state.steady)
    state.phase = Phase::steady;
  else if (recent && fastest && slower(s, *recent, *fastest, steps.size()))
    state.phase = Phase::slowing;
  else if (state.recent && fell(*state.recent))
    state.phase = Phase::active;
  return state;
}

}  // namespace areo::trend
