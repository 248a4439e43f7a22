// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/trend/state.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>

#include "areo/measurement/ferments.hpp"
#include "areo/numeric/quantile.hpp"
#include "line.hpp"

namespace areo::trend {
namespace {

using Numbers = std::vector<std::size_t>;  // of points, in order of time

// Chances that are shared among the stretches; those of certain() and about_now() are explained in
// docs/explanation/series.md.
constexpr double false_fall = 0.01, outside_fall = 0.025, faster_than_bound = 0.05;
constexpr double left_out = 1.28;  // 90 %: a slip, and then chance
constexpr double longer = 2;       // than the shortest certain fall
constexpr std::size_t least_of_fall = 3, least_of_steady = 4, longest = 120;

// Stretches that end now overlap: n of them count as 2.7 √(n + 1) (simulated), at most as n.
double factor(std::size_t stretches, double chance) {
  const auto n = static_cast<double>(stretches);
  return numeric::normal_quantile(1 - chance / std::max(1.0, std::min(n, 2.7 * std::sqrt(n + 1))));
}

Numbers from(const Numbers& all, std::size_t place) {
  return {all.begin() + static_cast<std::ptrdiff_t>(place), all.end()};
}

// Those that bubbles did not lift.
Numbers clear(const Series& s, Numbers all) {
  std::erase_if(all, [&](std::size_t i) { return s.is_lifted(i); });
  return all;
}

// With the lifted ones that lie on the late side of a line: too high, they only hide a fall.
Numbers clear_or_late(const Series& s, Numbers all) {
  for (;;) {
    double sum = 0, day = 0;
    for (const std::size_t i : all) {
      const double w = 1 / (s.errors.own(i) * s.errors.own(i));
      sum += w;
      day += w * s.days[i];
    }
    const auto gone =
        std::erase_if(all, [&](std::size_t i) { return s.is_lifted(i) && s.days[i] < day / sum; });
    if (gone == 0 || all.size() < 2) return all;
  }
}

// Beyond what chance makes of no fall, and nearly so whichever reading is left out.
std::optional<Line> certain(const Series& s, const Numbers& stretch, double scatter,
                            double factor_of_u) {
  if (s.is_lifted(stretch.front())) return std::nullopt;
  const Numbers alone = clear(s, stretch), more = clear_or_late(s, stretch);
  for (const Numbers& used : {alone, more}) {
    if (used.size() < least_of_fall) continue;
    const Line line{s, used, scatter};
    if (!line.stands() || line.pace().estimate <= factor_of_u * line.pace().u) continue;
    bool by_all = true;
    for (std::size_t i = 0; i < used.size() && by_all; ++i) {
      const auto rest = line.pace_without(i);
      by_all = rest && rest->estimate > left_out * rest->u;
    }
    if (by_all) return line;
  }
  return std::nullopt;
}

// The later half shows at least half of the pace, and no end of it much less.
bool about_now(const Series& s, const Line& line, double scatter) {
  constexpr double part = 0.5, may_go_on = 0.7, sure = 1.28;
  const Numbers& used = line.used();
  const double middle = (s.days[used.front()] + s.days[used.back()]) / 2;
  constexpr double nearly = 0.1;  // of a day: readings are not made on the minute
  uncertainty::Value late{};
  for (std::size_t first = used.size() - 1; first-- > 0;) {
    const Line tail{s, from(used, first), scatter};
    if (!tail.stands()) continue;
    late = tail.pace();
    if (late.estimate + may_go_on * late.u < part * line.pace().estimate) return false;
    if (first == 0 || s.days[used[first - 1]] < middle - nearly) break;
  }
  return late.estimate > part * line.pace().estimate && late.estimate > sure * late.u;
}

Fall fall_of(const Series& s, const Line& line, double scatter, double coverage_factor) {
  const Numbers& used = line.used();
  const double days = line.days();
  Fall f{days,         {line.pace().estimate * days, line.pace().u * days},
         used.size(),  coverage_factor,
         used.front(), used.back()};
  if (line.refuted()) {
    f.value = s.fall(used.front(), used.back());
    f.value.u *= scatter;
  }
  return f;
}

// Lower than the fastest pace of the three steps before explains.
bool fell_too_fast(const Series& s, const Numbers& kept, std::size_t place, double scatter) {
  constexpr std::size_t least = 3, most = 4;
  constexpr double times = 2, sure = 2;  // of the pace; of the uncertainty
  Numbers before = clear(s, {kept.begin(), kept.begin() + static_cast<std::ptrdiff_t>(place)});
  if (before.size() < least) return false;
  if (before.size() > most) before = from(before, before.size() - most);
  double fastest = 0;
  for (std::size_t i = 1; i < before.size(); ++i) {
    const double days = s.days[before[i]] - s.days[before[i - 1]];
    if (days > 0)
      fastest = std::max(fastest, (s.gravity[before[i - 1]] - s.gravity[before[i]]) / days);
  }
  const std::size_t last = kept[place], near = before.back();
  const double u = scatter * std::hypot(s.errors.own(last), s.errors.own(near));
  return s.gravity[near] - s.gravity[last] >
         times * fastest * (s.days[last] - s.days[near]) + sure * u;
}

// Takes away the last one, and if that is lifted and so confirms nothing also the last that is not,
// where they have to be confirmed. The earliest of them.
std::optional<std::size_t> take_unconfirmed(const Series& s, Numbers& kept, double scatter) {
  std::optional<std::size_t> taken;
  const std::size_t end = kept.size();
  for (std::size_t place = end; place-- > 0;) {
    const bool lifted = s.is_lifted(kept[place]);
    if (lifted && place + 1 != end) continue;
    if (fell_too_fast(s, kept, place, scatter)) {
      taken = kept[place];
      kept.erase(kept.begin() + static_cast<std::ptrdiff_t>(place));
    }
    if (!lifted) break;
  }
  return taken;
}

// Whether any stretch that ended earlier fell for certain.
bool fell_before(const Series& s, const Numbers& kept, double scatter, double factor_of_u) {
  constexpr std::size_t longest_before = 30;
  for (std::size_t end = kept.size() - 1; end >= least_of_fall; --end)
    for (std::size_t n = least_of_fall; n <= std::min(end, longest_before); ++n) {
      const auto last = kept.begin() + static_cast<std::ptrdiff_t>(end);
      if (certain(s, {last - static_cast<std::ptrdiff_t>(n), last}, scatter, factor_of_u))
        return true;
    }
  return false;
}

struct Bound {
  Pace pace;
  Line line;
  bool any_falls = false;  // a stretch fell beyond chance, whichever it was
};

// With one of its points left out it may be faster. What is rounded to divisions hides one of them
// over the stretch, however many readings there are.
double fastest(const Line& line, double sure, double division) {
  const double pace_seen = std::max(line.pace().estimate, 0.0);
  double pace = pace_seen + std::max(sure * line.pace().u, division / line.days());
  if (line.used().size() > 2)
    for (std::size_t i = 0; i < line.used().size(); ++i)
      if (const auto rest = line.pace_without(i))
        pace = std::max(pace, rest->estimate + left_out * rest->u);
  return pace;
}

// The lowest upper bound of the pace, of the stretches that begin at a place or behind it.
std::optional<Bound> hidden_pace(const Series& s, const Numbers& kept, std::size_t begin,
                                 double scatter, double sure, double sure_of_fall) {
  std::optional<Bound> best;
  bool any_falls = false;
  for (std::size_t first = kept.size() - 1; first-- > begin;) {
    if (s.is_lifted(kept[first])) continue;
    const Numbers used = clear(s, from(kept, first));
    if (used.size() < 2) continue;
    const Line line{s, used, scatter};
    if (!line.stands()) continue;
    any_falls |= line.pace().estimate > sure_of_fall * line.pace().u;
    const double pace = fastest(line, sure, s.division);
    if (!best || pace < best->pace.per_day)
      best = Bound{{pace, line.days(), used.size(), kept[first]}, line};
  }
  if (best) best->any_falls = any_falls;
  return best;
}

bool harmless(double per_day, double original) {
  constexpr double week = 7;
  const measurement::Made made = measurement::made_by_fall(original, week * per_day);
  return made.percent_vol < harmless_percent_vol && made.bar < harmless_bar;
}

// Why a stretch without a visible fall is not called steady; empty if it is.
std::string doubt_of(const State& state, const Bound& bound) {
  if (std::any_of(state.odd.begin(), state.odd.end(),
                  [&](const OddPoint& o) { return o.point >= bound.pace.first; }))
    return "an odd reading stands in it";
  if (state.unconfirmed) return "the last reading has to be confirmed";
  if (bound.pace.points < least_of_steady) return "it has too few readings";
  if (bound.line.refuted()) return "its readings follow no straight line";
  return "";
}

// All but some.
Numbers without(std::size_t size, const std::vector<OddPoint>& odd) {
  Numbers all;
  for (std::size_t i = 0; i < size; ++i)
    if (std::none_of(odd.begin(), odd.end(), [&](const OddPoint& o) { return o.point == i; }))
      all.push_back(i);
  return all;
}

// What scatters is judged without a few slips; of many, nobody knows which are.
void find_odd(const Series& s, State& state) {
  constexpr std::size_t few = 5;
  state.odd = odd_points(s, 1);
  const bool judged = few * state.odd.size() <= s.size();
  state.scatter = scatter_of(judged ? s.only(without(s.size(), state.odd)) : s);
  if (state.scatter > 1) state.odd = odd_points(s, state.scatter);
}

}  // namespace

State state_of(const Series& s) {
  State state;
  if (s.size() < 2) return state;
  const std::size_t n = s.size();
  state.whole = Fall{s.days.back() - s.days.front(), s.fall(0, n - 1), n};
  state.whole->last = n - 1;
  find_odd(s, state);
  if (conflicting(state)) {
    state.why = shifted(state) ? "readings in a row lie apart from the others: was something added "
                                 "and not noted, or is it another drink?"
                               : "the readings do not go together";
    return state;
  }
  Numbers kept = without(n, state.odd);
  state.unconfirmed = take_unconfirmed(s, kept, state.scatter);
  if (kept.size() < 2) return state;
  state.last = kept.back();
  const std::size_t begin = kept.size() - std::min(kept.size(), longest);
  const std::size_t stretches = kept.size() - 1 - begin;
  const double sure = factor(stretches, false_fall);
  std::optional<std::size_t> fell_from;  // place of the shortest certain stretch
  for (std::size_t first = kept.size() - 1; first-- > begin;) {
    const double days = s.days[kept.back()] - s.days[kept[first]];
    if (fell_from && days > longer * (s.days[kept.back()] - s.days[kept[*fell_from]])) break;
    const auto line = certain(s, from(kept, first), state.scatter, sure);
    if (!line) continue;
    if (!fell_from) fell_from = first;
    if (!about_now(s, *line, state.scatter)) continue;
    state.phase = Phase::falling;
    state.fall = fall_of(s, *line, state.scatter, factor(stretches, outside_fall));
    return state;
  }
  const auto bound = hidden_pace(s, kept, fell_from ? *fell_from + 1 : begin, state.scatter,
                                 factor(stretches, faster_than_bound), sure);
  if (!bound) {
    state.why = "no two of its readings were degassed";
    return state;
  }
  state.hidden = bound->pace;
  if (!fell_from && !fell_before(s, kept, state.scatter, sure)) {
    if (bound->any_falls)
      state.why = "its fall hangs on a single reading";
    else
      state.phase = Phase::not_begun;
    return state;
  }
  // Of two readings, or beyond chance, though it hangs on one of them.
  const uncertainty::Value& pace = bound->line.pace();
  if (bound->pace.points < least_of_fall || pace.estimate > sure * pace.u) {
    state.phase = Phase::fell;
    return state;
  }
  state.phase = Phase::no_fall;
  if (!harmless(bound->pace.per_day, s.gravity.front())) return state;
  state.why = doubt_of(state, *bound);
  if (state.why.empty()) state.phase = Phase::steady;
  return state;
}

bool shifted(const State& state) {
  constexpr std::size_t a_run = 3;
  std::size_t in_a_row = 0;
  for (std::size_t i = 0; i < state.odd.size(); ++i) {
    const bool next = i > 0 && state.odd[i].point == state.odd[i - 1].point + 1;
    in_a_row = next ? in_a_row + 1 : 1;
    if (in_a_row == a_run) return true;
  }
  return false;
}

bool conflicting(const State& state) {
  return shifted(state) || (state.odd.size() > 1 && 3 * state.odd.size() > state.whole->points);
}

bool counts(const State& state, std::size_t point) {
  return state.unconfirmed != point &&
         std::none_of(state.odd.begin(), state.odd.end(),
                      [&](const OddPoint& o) { return o.point == point; });
}

std::vector<std::size_t> sound_points(const Series& s, const State& state) {
  std::vector<std::size_t> all;
  for (std::size_t i = 0; i < s.size(); ++i)
    if (!s.is_lifted(i) && counts(state, i)) all.push_back(i);
  return all;
}

}  // namespace areo::trend
