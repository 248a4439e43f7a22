// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// A point in time with its offset from UTC: kept and printed as ISO 8601, read as people type it.
#include <compare>
#include <cstdint>
#include <string>
#include <string_view>

namespace areo {

/// Ordered by the instant, whatever the offset.
struct Moment {
  std::int64_t seconds = 0;   ///< since 1970-01-01T00:00:00Z
  std::int32_t offset_s = 0;  ///< east of UTC

  /// "2026-03-01T10:15:00+01:00"; of an old local mean time the offset has seconds, too
  [[nodiscard]] std::string text() const;
  /// "2026-03-01", in its own offset
  [[nodiscard]] std::string date() const;
  friend constexpr bool operator==(Moment a, Moment b) { return a.seconds == b.seconds; }
  friend constexpr auto operator<=>(Moment a, Moment b) { return a.seconds <=> b.seconds; }
};

/// The present, in the local time zone.
[[nodiscard]] Moment now();

/// Reads "2026-03-01", "2026-03-01T10:15", "2026-03-01 10:15:30". A time may end in "Z" or
/// "+01:00", up to 24 hours; without an offset, and for a bare date, the local time zone counts. A
/// bare date is the start of its day.
/// @throws ParseError for anything else; other orders of day and month are refused as ambiguous
[[nodiscard]] Moment moment_from_text(std::string_view text);

/// As people type what has happened, also "27.11.2026", "27 Nov 2026", "mon", "yesterday 6 pm".
/// @throws ParseError for "1/3/2026", which could be two days, and if it lies after `present`
[[nodiscard]] Moment past_moment_from_text(std::string_view text, Moment present);

/// As people type a date that may come; a bare one means its day to the end.
/// @throws ParseError for "1/3/2026", and for words such as "mon" and "today"
[[nodiscard]] Moment day_end_from_text(std::string_view text);

/// The same for something that has happened: whatever came into force on that day counts.
/// @return never later than `present`
/// @throws ParseError as past_moment_from_text()
[[nodiscard]] Moment past_day_end_from_text(std::string_view text, Moment present);

}  // namespace areo
