// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Two corrections of one instrument behind one result: never without a word.
#include <span>
#include <string>
#include <vector>

#include "areo/batch/batch.hpp"
#include "areo/wording/compare.hpp"

namespace areo::wording {

/// Notes on the last point of each bottle that could be computed, if what lies behind it mixes two
/// corrections that differ significantly: which, and what its result would be with either one.
/// @param points  of this batch, in order of time
/// @return the notes
std::vector<std::string> note_corrections(batch::Batch& batch, std::vector<batch::Point>& points);
/// The same of pairs that are compared.
/// @param batches  of all contenders, of one notebook
[[nodiscard]] std::vector<std::string> notes_on_corrections(std::span<batch::Batch* const> batches,
                                                            std::span<const ComparedPair> pairs);

}  // namespace areo::wording
