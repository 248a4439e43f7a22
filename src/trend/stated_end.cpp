// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/trend/stated_end.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "areo/core/error.hpp"
#include "areo/core/shell_word.hpp"
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

const batch::Point& last_before_closing(const batch::Batch& batch, const History& h,
                                        const std::string& bottle) {
  const std::string& name = batch.record().name;
  const auto last = std::find_if(h.points.rbegin(), h.points.rend(), [&](const batch::Point& p) {
    return p.computed() && p.sample.first().stage == notebook::Stage::present &&
           !h.is_odd(static_cast<std::size_t>(&p - h.points.data()));
  });
  if (last == h.points.rend())
    throw Error{Errc::inconsistent, fmt::format("{} was not read since its original gravity", name),
                fmt::format("read it before a bottle is closed: areo reading add {} 1.010",
                            shell_word(name))};
  if (!last->drink)
    throw Error{
        Errc::inconsistent,
        fmt::format("{} has no original gravity, so what is left of its sugar is unknown", name),
        "the gravity alone does not tell sugar from alcohol; close no bottle on it"};
  if (batch.added_since(last->sample, bottle))
    throw Error{Errc::inconsistent,
                fmt::format("something was added to {} since its last reading",
                            bottle.empty() ? name : "bottle " + bottle),
                "mix it well and read again; what is left of its sugar is unknown until then"};
  return *last;
}

}  // namespace areo::trend
