// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/uncertainty/decision.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "areo/core/error.hpp"
#include "areo/numeric/quantile.hpp"

namespace areo::uncertainty {
namespace {

void require_limit(double limit) {
  if (!std::isfinite(limit))
    throw Error{Errc::domain, fmt::format("a limit has to be a finite number; got {}", limit)};
}

void require_level(double level) {
  if (!(level > 0.5 && level <= 0.9999))
    throw Error{Errc::domain,
                fmt::format("a decision takes a probability above 0.5, to 0.9999; got {}", level)};
}

void require_uncertain(const Value& v) {
  if (!std::isfinite(v.estimate) || !std::isfinite(v.u) || !(v.u > 0) ||
      !(v.degrees_of_freedom >= 1))
    throw Error{
        Errc::domain,
        fmt::format("a decision needs a finite estimate, an uncertainty above zero and at "
                    "least one degree of freedom; got {} with u = {} and {} degrees of freedom",
                    v.estimate, v.u, v.degrees_of_freedom)};
}

void require_sorted(std::span<const double> sample) {
  if (sample.empty() || !std::is_sorted(sample.begin(), sample.end()) ||
      !std::all_of(sample.begin(), sample.end(), [](double v) { return std::isfinite(v); }))
    throw Error{Errc::domain, "a decision needs a sample of finite values in ascending order"};
}

// F: what the measurement leaves below z standard uncertainties.
double below(const Value& v, double z) {
  return numeric::student_t_probability(z, v.whole_degrees_of_freedom());
}

// How much of the distribution is no less than zero. Where it has no digits left, nothing computed
// with it would have any.
double not_negative(const Value& v) {
  constexpr double least = 1e-290;
  const double part = below(v, v.estimate / v.u);
  if (!(part > least))
    throw Error{Errc::domain,
                fmt::format("{} with u = {} contradicts a quantity that cannot be negative: its "
                            "uncertainty does not explain it",
                            v.estimate, v.u),
                "look for what is wrong with the reading"};
  return part;
}

std::span<const double> not_negative(std::span<const double> sorted) {
  const auto from = std::lower_bound(sorted.begin(), sorted.end(), 0.0);
  if (from == sorted.end())
    throw Error{Errc::domain, "no value of the sample is zero or more",
                "look for what is wrong with the reading"};
  return {from, sorted.end()};
}

// Values beyond a bound that a decision rests on.
double wanted_beyond(double level) { return 100 / (1 - level); }

// How many of n values stand for the level: the fraction p from which two standard deviations of
// its count can be taken off, p - 2 √(p (1 - p) / n) = level.
std::size_t count_for(double level, std::size_t n, const char* of) {
  const auto size = static_cast<double>(n);
  if (!(size >= wanted_beyond(level) * (1 - 1e-9)))
    throw Error{Errc::domain,
                fmt::format("a decision at {} needs {:.0f} values or more{}; got {}", level,
                            wanted_beyond(level), of, n),
                "take more trials, or a lower probability"};
  const double p =
      (level + 2 / size + 2 * std::sqrt(level * (1 - level) / size + 1 / size / size)) /
      (1 + 4 / size);
  return static_cast<std::size_t>(std::ceil(size * p));
}

Decision decided(const Bounds& bounds, double probability_below, double limit) {
  return {.side = bounds.upper <= limit  ? Side::below
                  : bounds.lower > limit ? Side::above
                                         : Side::cannot_tell,
          .probability_below = probability_below,
          .probability_above = 1 - probability_below,
          .bounds = bounds};
}

}  // namespace

double probability_below(const Value& value, double limit) {
  require_uncertain(value);
  require_limit(limit);
  const double possible = not_negative(value);
  return limit < 0 ? 0 : 1 - below(value, (value.estimate - limit) / value.u) / possible;
}

double probability_below(std::span<const double> sorted, double limit) {
  require_sorted(sorted);
  require_limit(limit);
  const auto possible = not_negative(sorted);
  const auto below = std::upper_bound(possible.begin(), possible.end(), limit) - possible.begin();
  return static_cast<double>(below) / static_cast<double>(possible.size());
}

double guard_band(const Value& value, double level) {
  require_uncertain(value);
  require_level(level);
  return value.u * numeric::student_t_quantile(level, value.whole_degrees_of_freedom());
}

Bounds bounds(const Value& value, double level) {
  const double w = guard_band(value, level);
  // Beyond it lies 1 - level of what is not below zero.
  const double beyond = (1 - level) * not_negative(value);
  const double z = numeric::student_t_quantile(beyond, value.whole_degrees_of_freedom());
  return {.lower = std::max(value.estimate - w, 0.0), .upper = value.estimate - z * value.u};
}

Bounds bounds(std::span<const double> sorted, double level) {
  require_level(level);
  require_sorted(sorted);
  const auto possible = not_negative(sorted);
  const std::size_t above_lower = count_for(level, sorted.size(), "");
  const std::size_t below_upper = count_for(level, possible.size(), " from zero on");
  return {.lower = std::max(sorted[sorted.size() - above_lower], 0.0),
          .upper = possible[below_upper - 1]};
}

std::size_t trials_for_bounds(const Value& value, double level) {
  require_uncertain(value);
  require_level(level);
  constexpr double in_case_the_law_is_off = 1.25;
  return static_cast<std::size_t>(
      std::ceil(in_case_the_law_is_off * wanted_beyond(level) / not_negative(value)));
}

Decision decide(const Value& value, double limit, double level) {
  return decided(bounds(value, level), probability_below(value, limit), limit);
}

Decision decide(std::span<const double> sorted, double limit, double level) {
  return decided(bounds(sorted, level), probability_below(sorted, limit), limit);
}

}  // namespace areo::uncertainty
