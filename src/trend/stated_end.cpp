// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/trend/stated_end.hpp"

#include "areo/measurement/ferments.hpp"

namespace areo::trend {

void require_possible_end(const batch::Batch& batch, const std::string& bottle, const History& h,
                          const std::optional<double>& expected) {
  if (!expected) return;
  for (std::size_t i = h.points.size(); i-- > 0;) {
    const batch::Point& p = h.points[i];
    if (!p.computed() || h.is_odd(i)) continue;
    if (batch.added_since(p.sample, bottle)) return;
    std::optional<uncertainty::Value> original;
    if (p.has_strength()) original = p.result().at("original_extract_percent").value;
    measurement::require_possible_end(*expected, p.gravity().value, original);
    return;
  }
}

bool is_stuck(const History& h, const std::optional<double>& expected) {
  if (h.state.phase != Phase::steady || !expected) return false;
  const uncertainty::Value v = h.series.value(h.series.size() - 1);
  return v.estimate - *expected > v.expanded();
}

}  // namespace areo::trend
