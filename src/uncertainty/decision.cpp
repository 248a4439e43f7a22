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

Side side(double below, double margin, double level) {
  if (below - margin >= level) return Side::below;
  if (1 - below - margin >= level) return Side::above;
  return Side::cannot_tell;
}

}  // namespace

double probability_below(const Value& value, double limit) {
  require_uncertain(value);
  require_limit(limit);
  return numeric::student_t_probability((limit - value.estimate) / value.u,
                                        value.whole_degrees_of_freedom());
}

double probability_below(std::span<const double> sorted, double limit) {
  require_sorted(sorted);
  require_limit(limit);
  const auto below = std::upper_bound(sorted.begin(), sorted.end(), limit) - sorted.begin();
  return static_cast<double>(below) / static_cast<double>(sorted.size());
}

double guard_band(const Value& value, double level) {
  require_uncertain(value);
  require_level(level);
  return value.u * numeric::student_t_quantile(level, value.whole_degrees_of_freedom());
}

Decision decide(const Value& value, double limit, double level) {
  const double w = guard_band(value, level);
  const double below = probability_below(value, limit);
  return {.side = side(below, 0, level),
          .probability_below = below,
          .lower = value.estimate - w,
          .upper = value.estimate + w};
}

Decision decide(std::span<const double> sorted, double limit, double level) {
  require_level(level);
  const double below = probability_below(sorted, limit);
  const auto n = static_cast<double>(sorted.size());
  const double outside = n * (1 - level);
  if (!(outside >= 100 * (1 - 1e-9)))
    throw Error{Errc::domain,
                fmt::format("a decision at {} needs {:.0f} values or more; got {}", level,
                            100 / (1 - level), n),
                "take more trials, or a lower probability"};
  const double margin = 2 * std::sqrt(below * (1 - below) / n);
  // So many values lie beyond each of the limits; rounding of 1 - level must not lose one.
  const auto beyond = static_cast<std::size_t>(outside + 1e-6);
  return {.side = side(below, margin, level),
          .probability_below = below,
          .lower = sorted[beyond],
          .upper = sorted[sorted.size() - 1 - beyond]};
}

}  // namespace areo::uncertainty
