// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// What happened to a batch, line by line.
#include <string>
#include <vector>

#include "areo/batch/batch.hpp"

namespace areo::wording {

/// Readings and additions in the order of time, below the names of the columns; nothing if there
/// are none.
/// @param bottles  with a column for them
[[nodiscard]] std::vector<std::vector<std::string>> history_rows(
    batch::Batch& batch, const std::vector<batch::Point>& points, const notebook::Notebook& book,
    bool bottles, bool full);
/// The original gravity at a moment: what it rests on, or why there is none.
[[nodiscard]] std::vector<std::string> original_lines(batch::Batch& batch,
                                                      const std::string& bottle, Moment at,
                                                      bool full);
/// What was amended, closed and reopened until then.
[[nodiscard]] std::vector<std::string> amendment_lines(const notebook::Notebook& book,
                                                       const notebook::BatchRecord& record,
                                                       Moment as_of);

}  // namespace areo::wording
