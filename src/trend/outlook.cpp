#include "areo/trend/outlook.hpp"

#include <algorithm>
#include <cmath>

namespace areo::trend {
namespace {

// The lowest that the last readings allow: the last that bubbles did not lift, and what was read
// behind it, which is too high at most.
std::optional<double> highest_end(const Series& s, const State& state) {
  std::optional<double> end;
  for (std::size_t i = s.size(); i-- > 0;) {
    if (!counts(state, i)) continue;
    const uncertainty::Value v = s.value(i);
    end = std::min(v.estimate + v.expanded(), end.value_or(v.estimate + v.expanded()));
    if (!s.is_lifted(i)) break;
  }
  return end;
}

// A day, or less where they were made more often.
double step_of(const Series& s) {
  const double span = s.days.back() - s.days.front();
  return s.size() < 2 || !(span > 0) ? 1 : std::min(1.0, span / static_cast<double>(s.size() - 1));
}

// The best that can come: from now on every reading is the same, and those before it that can
// hardly be told from the last one were so too.
Series at_rest(const Series& s, std::size_t more, double step) {
  constexpr double hardly = 2.5;  // of the uncertainty of two readings; a judgement
  const std::size_t n = s.size();
  std::vector<std::size_t> all(n + more, n - 1);
  for (std::size_t i = 0; i < n; ++i) all[i] = i;
  Series rest = s.only(all);
  const double last = s.gravity.back(), u = s.errors.own(n - 1);
  std::size_t first = 0;
  while (s.gravity[first] - last > hardly * std::hypot(s.errors.own(first), u)) ++first;
  for (std::size_t i = first; i < rest.size(); ++i) rest.gravity[i] = last;
  for (std::size_t i = n; i < rest.size(); ++i)
    rest.days[i] = s.days.back() + step * static_cast<double>(i - n + 1);
  return rest;
}

// How many readings later it is steady; nothing if never within so many.
std::optional<std::size_t> readings_until_steady(const Series& s, double step, std::size_t most) {
  const auto steady = [&](std::size_t more) {
    return state_of(at_rest(s, more, step)).phase == Phase::steady;
  };
  std::size_t before = 0, then = 1;
  while (then < most && !steady(then)) {
    before = then;
    then = std::min(2 * then, most);
  }
  if (then == most && !steady(most)) return std::nullopt;
  while (then - before > 1) {
    const std::size_t between = (before + then) / 2;
    (steady(between) ? then : before) = between;
  }
  return then;
}

bool has_fallen(Phase p) { return p == Phase::falling || p == Phase::fell || p == Phase::no_fall; }

}  // namespace

Outlook outlook_of(const Series& s, const State& state,
                   const std::optional<uncertainty::Value>& lowest) {
  Outlook o;
  if (!conflicting(state)) o.highest = highest_end(s, state);
  if (!o.highest) {
    o.refused = s.size() == 0 ? "nothing was read" : "the readings do not go together";
    return o;
  }
  // A reading below what is possible stands beside it: nobody knows which of both is off.
  if (lowest && lowest->estimate - lowest->expanded() < *o.highest)
    o.lowest = lowest->estimate - lowest->expanded();
  if (!has_fallen(state.phase)) return o;
  const Series sound = s.only(sound_points(s, state));
  if (sound.size() < 2) return o;
  o.step_days = step_of(sound);
  const auto most = static_cast<std::size_t>(farthest_days / o.step_days);
  if (const auto more = readings_until_steady(sound, o.step_days, most))
    o.steady_from = sound.days.back() + o.step_days * static_cast<double>(*more);
  return o;
}

}  // namespace areo::trend
