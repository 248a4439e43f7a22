#include "trend_text.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "areo/core/error.hpp"
#include "parse.hpp"

namespace areo::cli {

using batch::Batch;
using trend::History;
using trend::Phase;

void require_bottle(const Batch& batch, const std::string& bottle) {
  const auto all = batch.bottles();
  if (std::find(all.begin(), all.end(), bottle) != all.end() || all.empty()) return;
  if (all == std::vector<std::string>{""})
    throw Error{Errc::inconsistent,
                fmt::format("{} has no bottle '{}'", batch.record().name, bottle),
                "its readings are of the batch as a whole: leave --bottle out"};
  std::string names;
  for (const std::string& b : all) names += b.empty() ? "" : (names.empty() ? "" : ", ") + b;
  throw Error{Errc::inconsistent,
              bottle.empty() ? fmt::format("all readings of {} are of bottles", batch.record().name)
                             : fmt::format("{} has no bottle '{}'", batch.record().name, bottle),
              fmt::format("say --bottle NAME; there are: {}", names)};
}

std::optional<double> expected_from_text(const std::string& text) {
  if (text.empty()) return std::nullopt;
  const TypedMark m = mark_from_text(text);
  return physics::mark_from_liquid(physics::sg_20_20, physics::liquid_from_mark(m.scale, m.value));
}

bool is_stuck(const History& h, const std::optional<double>& expected) {
  if (h.state.phase != Phase::steady || !expected) return false;
  const uncertainty::Value v = h.series.value(h.series.size() - 1);
  return v.estimate - *expected > v.expanded();
}

const char* word(Phase p) {
  switch (p) {
    case Phase::lag: return "lag";
    case Phase::active: return "active";
    case Phase::slowing: return "slowing";
    case Phase::steady: return "steady";
    case Phase::unclear: break;
  }
  return "unclear";
}

}  // namespace areo::cli
