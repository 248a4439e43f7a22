// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// When something of a batch was, and whether two rows are one that was typed twice.
#include <cstdint>
#include <cstdlib>
#include <string>
#include <utility>

#include "areo/batch/expectation.hpp"
#include "areo/core/moment.hpp"

namespace areo::batch {

inline constexpr std::int64_t seconds_per_day = 86400;

/// When something was, and of what happened at one moment, when it was noted.
using When = std::pair<std::int64_t, std::int64_t>;
template <class Record>
[[nodiscard]] When when(const Record& r) {
  return {r.made_at.seconds, r.noted_at.seconds};
}

/// A day without its hour is noted as midnight.
[[nodiscard]] inline bool of_a_day(Moment m) {
  return (m.seconds + m.offset_s) % seconds_per_day == 0;
}

/// Later beyond doubt: of two moments one of which is a whole day, on a later day.
[[nodiscard]] inline bool surely_later(Moment a, Moment b) {
  return of_a_day(a) || of_a_day(b) ? a.date() > b.date() : b < a;
}

/// Made at one moment; or both noted as they were made, one soon after the other.
template <class Record>
[[nodiscard]] bool at_once(const Record& a, const Record& b) {
  const bool live = a.made_at == a.noted_at && b.made_at == b.noted_at;
  const std::int64_t apart = std::abs(a.made_at.seconds - b.made_at.seconds);
  return apart == 0 || (live && apart <= typed_twice_s);
}

/// "2026-05-24 10:30", or the day alone.
[[nodiscard]] inline std::string moment_text(Moment m) {
  std::string text = m.text().substr(0, of_a_day(m) ? 10 : 16);
  if (text.size() > 10) text[10] = ' ';
  return text;
}

}  // namespace areo::batch
