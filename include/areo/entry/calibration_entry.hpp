// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// A calibration from checks, and what was typed about it.
#include <string>
#include <vector>

#include "areo/notebook/store.hpp"
#include "areo/wording/fit.hpp"

namespace areo::entry {

/// The checks of an instrument since a moment, without some.
/// @param since     as typed; all if empty: after a year the new checks alone make the new
/// calibration
/// @param left_out  numbers of checks
/// @throws Error{domain} if none is left, or one is not there; ParseError for no moment
[[nodiscard]] std::vector<notebook::CheckRecord> checks_to_fit(
    const notebook::Notebook& book, const notebook::InstrumentRecord& instrument,
    const std::string& since, const std::vector<notebook::Id>& left_out);

/// As typed; what is not given is empty.
struct TypedCalibration {
  std::string from;  ///< when it comes into force
  std::string due;   ///< when it is to be checked again
  std::string note;
};
/// Unless stated, in force from the last check on; the first calibration holds for what was read
/// before too.
/// @throws ParseError; Error{inconsistent} if it is due before it is in force
[[nodiscard]] notebook::CalibrationRecord calibration_record(const TypedCalibration& typed,
                                                             const wording::FitSummary& fit);

/// The same checks from the same moment on: typed once more, or by a script that was not told.
/// @throws Error{inconsistent} for such a record
void refuse_again(const std::vector<notebook::CalibrationRecord>& earlier,
                  const notebook::CalibrationRecord& record, const std::string& name);

}  // namespace areo::entry
