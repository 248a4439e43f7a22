// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// What records and trends have in common, as values of the JSON library, to stand in larger ones.
#include <vector>

#include "areo/batch/batch.hpp"
#include "areo/calibration/drift.hpp"
#include "areo/notebook/store.hpp"
#include "areo/trend/history.hpp"
#include "text/json_dump.hpp"

namespace areo::wording {

/// The numbers of the readings of a sample.
[[nodiscard]] text::Json numbers_value(const batch::Sample& sample);
/// What is odd about a ferment's readings: a list.
[[nodiscard]] text::Json odd_value(const trend::History& h);
/// What changed since the calibration before.
[[nodiscard]] text::Json drift_value(const notebook::CalibrationRecord& before,
                                     const calibration::Drift& drift);
/// What a new calibration changes of what was read before: a list.
[[nodiscard]] text::Json changes_value(const std::vector<notebook::ReadWith>& all);

}  // namespace areo::wording
