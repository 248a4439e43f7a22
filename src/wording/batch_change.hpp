// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// What changed from one sample of a batch to the next.
#include <optional>

#include "areo/batch/batch.hpp"

namespace areo::wording {

struct Change {
  uncertainty::Value gravity;
  const batch::Sample* since;
  bool added;  ///< something went in between: then the gravity may rise
  const batch::Sample* passed_over = nullptr;  ///< the last one, where it is far from both of them
};
/// What a sample differs by from the last one, if both were computed.
[[nodiscard]] std::optional<Change> change_of(batch::Batch& batch, const batch::Point& point);

}  // namespace areo::wording
