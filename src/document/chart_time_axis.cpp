// SPDX-License-Identifier: GPL-3.0-or-later
// The axis of time of a chart.
#include <fmt/format.h>

#include <array>
#include <chrono>
#include <cmath>
#include <cstdint>

#include "areo/core/error.hpp"
#include "chart_axis.hpp"

namespace areo::document {
namespace {

using std::chrono::sys_days, std::chrono::sys_seconds, std::chrono::year_month_day;

constexpr double minute = 60, hour = 3600, day = 86400, week = 7 * day;
// A plot is at least 350 units wide; "03-02" takes 40 of them and "2026-03" 56.
constexpr int most_ticks = 7;
constexpr std::array steps{minute, 2 * minute, 5 * minute, 10 * minute, 30 * minute,
                           hour,   2 * hour,   3 * hour,   6 * hour,    12 * hour,
                           day,    2 * day,    4 * day,    week,        2 * week};
constexpr std::array months{1, 2, 3, 6, 12, 24, 60, 120, 240, 600, 1200, 2400, 6000, 12000};

sys_seconds clock_at(double s) {
  return sys_seconds{std::chrono::seconds{static_cast<std::int64_t>(s)}};
}
year_month_day date_at(double s) {
  return year_month_day{std::chrono::floor<std::chrono::days>(clock_at(s))};
}
int year_of(const year_month_day& d) { return static_cast<int>(d.year()); }
unsigned month_of(const year_month_day& d) { return static_cast<unsigned>(d.month()); }

std::string year_text(double s) { return fmt::format("{:04}", year_of(date_at(s))); }
std::string day_text(double s) {
  const year_month_day d = date_at(s);
  return fmt::format("{:02}-{:02}", month_of(d), static_cast<unsigned>(d.day()));
}
std::string month_text(double s) {
  return fmt::format("{}-{:02}", year_text(s), month_of(date_at(s)));
}
std::string hour_text(double s) {
  const double of_day = s - day * std::floor(s / day);
  return fmt::format("{:02.0f}:{:02.0f}", std::floor(of_day / hour),
                     std::fmod(of_day, hour) / minute);
}

// 1970 began on a Thursday; weeks are counted from the Monday after it.
double origin(double step) { return step >= week ? 4 * day : 0; }

std::vector<Tick> clock_ticks(double lo, double hi, double step) {
  const bool hours = step < day;
  std::vector<Tick> ticks;
  std::string before;
  for (double k = std::ceil((lo - origin(step)) / step); origin(step) + k * step <= hi; ++k) {
    const double at = origin(step) + k * step;
    const std::string below = hours ? day_text(at) : year_text(at);
    ticks.push_back({at, hours ? hour_text(at) : day_text(at), below == before ? "" : below});
    before = below;
  }
  return ticks;
}

// First days of months, counted from the year 0.
double first_day(int month) {
  const auto y = std::chrono::year{month / 12};
  const auto m = std::chrono::month{static_cast<unsigned>(month % 12 + 1)};
  return day * static_cast<double>(sys_days{y / m / 1}.time_since_epoch().count());
}

std::vector<Tick> month_ticks(double lo, double hi, int step) {
  const year_month_day begin = date_at(lo);
  int month = 12 * year_of(begin) + static_cast<int>(month_of(begin)) - 1;
  month -= month % step;
  std::vector<Tick> ticks;
  for (; first_day(month) <= hi; month += step) {
    const double at = first_day(month);
    if (at < lo) continue;
    ticks.push_back({at, step % 12 == 0 ? year_text(at) : month_text(at), {}});
  }
  return ticks;
}

std::vector<Tick> ticks_of(double lo, double hi) {
  for (const double step : steps)
    if ((hi - lo) / step <= most_ticks) return clock_ticks(lo, hi, step);
  constexpr double month_length = 30.4 * day;
  constexpr int most_months = 5;  // their labels are longer
  for (const int step : months)
    if ((hi - lo) / (step * month_length) <= most_months) return month_ticks(lo, hi, step);
  return month_ticks(lo, hi, months.back());
}

}  // namespace

Axis time_axis(Span span) {
  constexpr double first = -62135596800, last = 253402300799;  // 0001-01-01, 9999-12-31
  if (!(span.lo >= first && span.hi <= last))
    throw Error{Errc::domain, "a chart's dates lie in the years 1 to 9999"};
  constexpr double shortest = 10 * minute;
  double margin = 0.03 * (span.hi - span.lo);
  if (!(span.hi > span.lo))
    margin = day / 2;
  else if (span.hi - span.lo < shortest)
    margin = shortest / 2;
  const double lo = std::max(first, span.lo - margin), hi = std::min(last, span.hi + margin);
  return {lo, hi, ticks_of(lo, hi)};
}

}  // namespace areo::document
