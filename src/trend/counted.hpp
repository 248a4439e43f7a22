// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Which of many readings conclusions are drawn from.
#include <cstddef>
#include <map>
#include <vector>

#include "areo/batch/batch.hpp"

namespace areo::trend {

/// The samples of a bottle in order of time, and where something was added between them.
struct Runs {
  std::vector<const batch::Sample*> samples;
  std::vector<std::size_t> ends;  ///< number of the sample behind each run

  /// Number of the first sample that nothing was added after.
  [[nodiscard]] std::size_t last_begin() const { return ends.size() < 2 ? 0 : *(ends.end() - 2); }
};
[[nodiscard]] Runs runs_of(const batch::Batch& batch, std::vector<const batch::Sample*> samples);

/// By the number of each sample that counts its day; where it stands for those of a few hours, as
/// grouped(), their mean day. It is chosen by what they show, so that no other one has to be
/// computed; what shows nothing stands for nothing.
[[nodiscard]] std::map<std::size_t, double> counted_of(batch::Batch& batch, const Runs& runs,
                                                       Moment zero);

/// Days of 24 hours from one moment to another.
[[nodiscard]] double days_between(Moment from, Moment to);

}  // namespace areo::trend
