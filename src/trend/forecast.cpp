// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/trend/forecast.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <utility>
#include <vector>

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

bool err_alike(const Series& s, std::size_t a, std::size_t b) {
  const auto of_a = s.errors.shares(a), of_b = s.errors.shares(b);
  return s.errors.own(a) == s.errors.own(b) &&
         std::equal(
             of_a.begin(), of_a.end(), of_b.begin(), of_b.end(),
             [](const auto& x, const auto& y) { return x.number == y.number && x.u == y.u; });
}

// What is read from now on, in turn: as these readings were, by their numbers.
using Turns = std::vector<std::size_t>;

// Nobody knows which instrument will be used: that of the last reading, of the one before, these by
// turns, or the best one.
std::vector<Turns> any_turns(const Series& s) {
  const std::size_t last = s.size() - 1;
  std::size_t best = last;
  for (std::size_t i = 0; i < last; ++i)
    if (s.errors.own(i) < s.errors.own(best)) best = i;
  std::vector<Turns> all{{last}};
  if (!err_alike(s, last - 1, last)) all.insert(all.end(), {{last - 1}, {last - 1, last}});
  if (!err_alike(s, best, last)) all.push_back({best});
  return all;
}

// The first of the last readings that can hardly be told from the last one: so were they at rest.
std::size_t first_at_rest(const Series& s) {
  constexpr double hardly = 2.5;  // of the uncertainty of two readings; a judgement
  const std::size_t last = s.size() - 1;
  std::size_t first = 0;
  while (s.gravity[first] - s.gravity[last] >
         hardly * std::hypot(s.errors.own(first), s.errors.own(last)))
    ++first;
  return first;
}

// From now on every reading is the same as the last one, and so were those before it from a first
// one on.
Series at_rest(const Series& s, std::size_t first, const Turns& turns, std::size_t more,
               double step) {
  const std::size_t n = s.size();
  std::vector<std::size_t> all(n + more);
  for (std::size_t i = 0; i < all.size(); ++i) all[i] = i < n ? i : turns[(i - n) % turns.size()];
  Series rest = s.only(all);
  for (std::size_t i = first; i < rest.size(); ++i) rest.gravity[i] = s.gravity[n - 1];
  for (std::size_t i = n; i < rest.size(); ++i)
    rest.days[i] = s.days[n - 1] + step * static_cast<double>(i - n + 1);
  return rest;
}

// As if nothing that the readings share could hide a fall.
Series alone(Series s) {
  numeric::SharedErrors errors{s.size()};
  for (std::size_t i = 0; i < s.size(); ++i) errors.set_own(i, s.errors.own(i));
  s.errors = std::move(errors);
  return s;
}

using IsSteady = std::function<bool(std::size_t more)>;

// The fewest readings with which it is steady, where more of them do not take that back; nothing if
// never within so many.
std::optional<std::size_t> fewest_of(const IsSteady& steady, std::size_t most) {
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

// How many readings later it is steady in the best case. Where instruments differ, what is steady
// after some readings need not be so after more of them, nor with a smaller uncertainty: each day
// is asked, and each case. Of the readings of a day the first one is told.
std::optional<std::size_t> readings_until_steady(const Series& s, double step, std::size_t most) {
  const auto steady = [&](const Series& readings, std::size_t first, const Turns& turns,
                          std::size_t more) {
    return state_of(at_rest(readings, first, turns, more, step)).phase == Phase::steady;
  };
  const std::vector<Turns> turns = any_turns(s);
  const auto with_last = fewest_of(
      [&](std::size_t more) { return steady(s, first_at_rest(s), turns.front(), more); }, most);
  if (turns.size() == 1) return with_last;
  const Series unshared = alone(s);
  const auto a_day = static_cast<std::size_t>(std::max(1.0, std::round(1 / step)));
  for (std::size_t more = a_day; more < with_last.value_or(most + 1); more += a_day)
    for (const Series* readings : {&s, &unshared})
      for (const std::size_t first : {first_at_rest(s), s.size() - 1})
        for (const Turns& t : turns)
          if (steady(*readings, first, t, more)) return more - a_day + 1;
  return with_last;
}

bool has_fallen(Phase p) { return p == Phase::falling || p == Phase::fell || p == Phase::no_fall; }

}  // namespace

Forecast forecast_of(const Series& s, const State& state,
                     const std::optional<uncertainty::Value>& lowest) {
  Forecast o;
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
