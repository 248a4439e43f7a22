// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// What changed from one calibration to the next.
#include <string>
#include <vector>

#include "areo/calibration/drift.hpp"
#include "areo/notebook/record.hpp"

namespace areo::wording {

/// What changed since the calibration before.
[[nodiscard]] std::vector<std::string> drift_lines(const notebook::InstrumentRecord& instrument,
                                                   const notebook::CalibrationRecord& before,
                                                   const calibration::Drift& drift);

}  // namespace areo::wording
