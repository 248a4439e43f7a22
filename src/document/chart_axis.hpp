// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// The axes of a chart: what they span, and where their labels stand.
#include <string>
#include <vector>

namespace areo::document {

/// What an axis has to show at least.
struct Span {
  double lo, hi;
  void take(double value);
};

struct Tick {
  double at = 0;
  std::string label;
  std::string below;  ///< the date of hours, or the year of dates, where it changes
};

struct Axis {
  double lo = 0, hi = 1;  ///< hi > lo
  std::vector<Tick> ticks;
};

/// The smallest of 1, 2, 5, 10, 20, 50, ... that fits into a span at most so many times.
/// @param span  > 0
[[nodiscard]] double round_step(double span, int most);

/// It begins and ends at a tick.
/// @param decimals  of the labels, more where their step needs them
[[nodiscard]] Axis axis_between_ticks(Span span, int decimals);
/// It has a margin on both sides.
/// @param most  ticks
[[nodiscard]] Axis axis_with_margin(Span span, int decimals, int most);
/// The same of seconds since 1970 by the clock on the wall, with ticks at full minutes and hours,
/// at midnights, Mondays, and the first days of months and years.
/// @throws Error{domain} outside the years 1 to 9999
[[nodiscard]] Axis time_axis(Span span);

}  // namespace areo::document
