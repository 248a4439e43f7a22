// SPDX-License-Identifier: GPL-3.0-or-later
// Which bottle of a batch is meant.
#include <fmt/format.h>

#include <algorithm>

#include "areo/batch/batch.hpp"
#include "areo/core/error.hpp"

namespace areo::batch {

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

void refuse_bottles(const Batch& batch) {
  std::string names;
  for (const std::string& bottle : batch.bottles())
    if (!bottle.empty()) names += (names.empty() ? "" : ", ") + bottle;
  if (!names.empty())
    throw Error{Errc::inconsistent,
                fmt::format("{} has bottles with readings of their own", batch.record().name),
                fmt::format("say --bottle NAME; there are: {}", names)};
}

}  // namespace areo::batch
