// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// What the verdicts on a ferment are worth that is known, counted.
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <vector>

#include "areo/measurement/ferments.hpp"
#include "areo/trend/state.hpp"
#include "ferments.hpp"

namespace areo::property {

struct Count {
  int series = 0, verdicts = 0;
  int falling = 0, none_falls = 0, stopped = 0, outside = 0;
  int steady = 0, not_harmless = 0;
  int bounds = 0, exceeded = 0;
  int fell = 0, no_fall = 0, not_begun = 0, had_begun = 0, unclear = 0;
  int wrongly_odd = 0;                                   // series
  int knowable = 0, certain_then = 0, falling_then = 0;  // series
  int slips = 0, found = 0;
  int rests = 0, rests_called = 0, rest_days = 0;  // series; days in all

  void add(const Count& c) {
    for (const auto member :
         {&Count::series,    &Count::verdicts,  &Count::falling,      &Count::none_falls,
          &Count::stopped,   &Count::outside,   &Count::steady,       &Count::not_harmless,
          &Count::bounds,    &Count::exceeded,  &Count::fell,         &Count::no_fall,
          &Count::not_begun, &Count::had_begun, &Count::unclear,      &Count::wrongly_odd,
          &Count::knowable,  &Count::slips,     &Count::certain_then, &Count::falling_then,
          &Count::found,     &Count::rests,     &Count::rests_called, &Count::rest_days})
      this->*member += c.*member;
  }
};

// The slowest pace, by the day, of which a week is not harmless.
inline double harmful_pace(const Notes& notes) {
  constexpr double week = 7, fall = 0.001;
  const auto made = measurement::made_by_fall(notes.original, fall);
  return fall / week *
         std::min(trend::harmless_percent_vol / made.percent_vol, trend::harmless_bar / made.bar);
}

// Comparisons are so that a number that is none counts as wrong.
inline void judge_fall(const Notes& notes, const trend::Fall& fall, Count& c) {
  const double from = notes.readings.days[fall.first], to = notes.readings.days[fall.last];
  const double truth = notes.fall(from, to);
  constexpr double no_fall = 0.0001;
  const bool falls = truth >= no_fall;
  c.none_falls += falls ? 0 : 1;
  c.outside += std::abs(truth - fall.value.estimate) <= fall.expanded() ? 0 : 1;
  c.stopped += falls && notes.pace(to) < 0.05 * truth / (to - from) ? 1 : 0;
}

inline void judge_bound(const Notes& notes, const trend::Pace& hidden, Count& c) {
  const double from = notes.readings.days[hidden.first];
  ++c.bounds;
  c.exceeded += notes.fall(from, from + hidden.days) / hidden.days <= hidden.per_day ? 0 : 1;
}

inline void judge(const Notes& notes, const trend::State& state, double today, Count& c) {
  ++c.verdicts;
  c.falling += state.phase == trend::Phase::falling ? 1 : 0;
  c.fell += state.phase == trend::Phase::fell ? 1 : 0;
  c.no_fall += state.phase == trend::Phase::no_fall ? 1 : 0;
  c.not_begun += state.phase == trend::Phase::not_begun ? 1 : 0;
  c.unclear += state.phase == trend::Phase::unclear ? 1 : 0;
  constexpr double begun = 0.003;
  c.had_begun += state.phase == trend::Phase::not_begun &&
                         notes.fall(notes.readings.days.front(), today) > begun
                     ? 1
                     : 0;
  if (state.fall) judge_fall(notes, *state.fall, c);
  if (state.hidden) judge_bound(notes, *state.hidden, c);
  if (state.phase != trend::Phase::steady) return;
  ++c.steady;
  c.not_harmless += notes.pace(today) <= harmful_pace(notes) ? 0 : 1;
}

// Who knew the course and only asked whether there is any fall at all would be 95 % sure of it with
// a chance of 95 %: after so many of the readings.
inline std::optional<std::size_t> knowable(const Notes& notes) {
  double n = 0, sum = 0, squares = 0;
  for (std::size_t i = 0; i < notes.readings.size(); ++i) {
    if (notes.readings.is_lifted(i)) continue;
    const double fallen = notes.fall(0, notes.readings.days[i]) / notes.real_u;
    n += 1;
    sum += fallen;
    squares += fallen * fallen;
    constexpr double twice_95 = 2 * 1.645;
    if (n > 1 && squares - sum * sum / n > twice_95 * twice_95) return i + 1;
  }
  return std::nullopt;
}

// The first reading from which on the pace stays harmless.
inline std::size_t comes_to_rest(const Notes& notes) {
  std::size_t first = notes.readings.size();
  const double harmful = harmful_pace(notes);
  while (first > 0 && notes.pace(notes.readings.days[first - 1]) < harmful) --first;
  return first;
}

// Every day's verdict of one ferment.
inline Count judged(const Notes& notes) {
  Count c;
  c.series = 1;
  const std::size_t all = notes.readings.size();
  const std::size_t rest = comes_to_rest(notes);
  c.rests = rest > 0 && rest < all ? 1 : 0;
  std::optional<std::size_t> certain, falling;
  bool wrongly_odd = false;
  std::vector<trend::OddPoint> odd;
  for (std::size_t n = 2; n <= all; ++n) {
    const trend::State state = trend::state_of(notes.first(n));
    judge(notes, state, notes.readings.days[n - 1], c);
    if (!certain && state.phase != trend::Phase::unclear && state.phase != trend::Phase::not_begun)
      certain = n;
    if (!falling && state.phase == trend::Phase::falling) falling = n;
    if (state.phase == trend::Phase::steady && c.rests == 1 && n > rest && c.rests_called == 0) {
      c.rests_called = 1;
      c.rest_days =
          static_cast<int>(std::lround(notes.readings.days[n - 1] - notes.readings.days[rest]));
    }
    odd = state.odd;
    for (const trend::OddPoint& o : odd) wrongly_odd |= notes.slipped[o.point] == 0;
  }
  c.wrongly_odd = wrongly_odd ? 1 : 0;
  if (const auto then = knowable(notes)) {
    c.knowable = 1;
    c.certain_then = certain && *certain <= *then + 1 ? 1 : 0;
    c.falling_then = falling && *falling <= *then + 1 ? 1 : 0;
  }
  constexpr double visible = 0.004;
  for (std::size_t i = 0; i < all; ++i) c.slips += std::abs(notes.slipped[i]) >= visible ? 1 : 0;
  for (const trend::OddPoint& o : odd)
    c.found += std::abs(notes.slipped[o.point]) >= visible ? 1 : 0;
  return c;
}

}  // namespace areo::property
