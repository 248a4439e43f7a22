// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/trend/compare.hpp"

#include <cmath>

#include "areo/core/error.hpp"
#include "areo/uncertainty/decision.hpp"

namespace areo::trend {

Comparison compare(const uncertainty::Value& difference, const std::optional<double>& within) {
  if (within && (!(*within > 0) || !std::isfinite(*within)))
    throw Error{Errc::domain, "what counts as the same is a number above zero"};
  const double one_sided = uncertainty::guard_band(difference);  // refuses what is no measurement
  const double expanded = difference.expanded();
  Comparison c{difference, Verdict::not_told_apart, expanded + one_sided};
  if (std::abs(difference.estimate) > expanded)
    c.verdict = Verdict::different;
  else if (within && std::abs(difference.estimate) + one_sided <= *within)
    c.verdict = Verdict::same;
  return c;
}

}  // namespace areo::trend
