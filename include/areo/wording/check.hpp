// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Checks of an instrument, for people and for programs.
#include <optional>
#include <string>
#include <vector>

#include "areo/calibration/check.hpp"
#include "areo/calibration/fit.hpp"
#include "areo/core/moment.hpp"
#include "areo/notebook/record.hpp"

namespace areo::wording {

/// "within", "outside", "cannot_tell"
[[nodiscard]] const char* conformity_word(calibration::Conformity c);
/// How many digits beyond those that `expanded` supports show whether a difference is larger than
/// it; 0 as a rule.
[[nodiscard]] int telling_digits(double difference, double expanded);
/// "-0.92", or "+1.004" where two digits would not show on which side of 1 it lies.
[[nodiscard]] std::string en_text(double en);
/// A difference with its sign: "+0.0012", to the last place that `expanded` supports and `more`.
[[nodiscard]] std::string signed_text(double value, double expanded, int more = 0);
/// One check as an object for programs.
[[nodiscard]] std::string check_json(const notebook::CheckRecord& r, const calibration::Check& c,
                                     const std::string& unit,
                                     const std::vector<std::string>& notes);

/// What the instrument does, in words: "HIGH by 0.0012 ± 0.0007".
[[nodiscard]] std::string behaviour_text(const calibration::Check& check, const std::string& unit);

/// What a check says that was noted just now, and what to check next.
/// @param checks   all of the instrument, this one too
/// @param remarks  on its thermometer
[[nodiscard]] std::vector<std::string> new_check_lines(
    const notebook::InstrumentRecord& instrument, const notebook::CheckRecord& r,
    const calibration::Check& c, const std::vector<notebook::CheckRecord>& checks,
    const std::vector<std::string>& remarks, bool full);

}  // namespace areo::wording
