// SPDX-License-Identifier: GPL-3.0-or-later
#include "chart_axis.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "areo/text/format.hpp"

namespace areo::document {
namespace {

constexpr double margin_part = 0.03;
// Ratios of doubles that should be whole may miss it by this much.
constexpr double rounding = 1e-9;

// Values that are all but one lie in the middle, five units of the last decimal from both ends.
Span widened(Span s, int decimals) {
  const double size = std::max(std::abs(s.lo), std::abs(s.hi));
  if (s.hi - s.lo > std::max(rounding * size, 1e-100)) return s;
  const double half = std::max(5 * std::pow(10.0, -decimals), 1e-6 * size);
  return {s.lo - half, s.hi + half};
}

std::string number_label(double value, int decimals, double largest) {
  constexpr int most_decimals = 7;
  constexpr double long_number = 1e7;
  if (decimals > most_decimals || largest >= long_number) return fmt::format("{:.4g}", value + 0.0);
  return text::fixed(value, decimals);
}

std::vector<Tick> number_ticks(double lo, double hi, double step, int decimals) {
  const double largest = std::max(std::abs(lo), std::abs(hi));
  std::vector<Tick> ticks;
  const double last = std::floor(hi / step + rounding);
  for (double k = std::ceil(lo / step - rounding); k <= last; ++k)
    ticks.push_back(
        {k * step,
         number_label(k * step, std::max(decimals, text::decimals_of_step(step)), largest),
         {}});
  return ticks;
}

}  // namespace

void Span::take(double value) {
  lo = std::min(lo, value);
  hi = std::max(hi, value);
}

double round_step(double span, int most) {
  const double least = span / most;
  const double power = std::pow(10.0, std::floor(std::log10(least)));
  for (const double digit : {1.0, 2.0, 5.0})
    if (digit * power >= least * (1 - rounding)) return digit * power;
  return 10 * power;
}

Axis axis_between_ticks(Span span, int decimals) {
  constexpr int most = 6;  // and one more at each end
  const Span s = widened(span, decimals);
  const double step = round_step(s.hi - s.lo, most);
  const double lo = std::floor(s.lo / step + rounding) * step;
  const double hi = std::ceil(s.hi / step - rounding) * step;
  return {lo, hi, number_ticks(lo, hi, step, decimals)};
}

Axis axis_with_margin(Span span, int decimals, int most) {
  const Span s = widened(span, decimals);
  const double margin = margin_part * (s.hi - s.lo);
  const double lo = s.lo - margin, hi = s.hi + margin;
  return {lo, hi, number_ticks(lo, hi, round_step(hi - lo, most), decimals)};
}

}  // namespace areo::document
