// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// The calibrations of an instrument, one after the other, and the checks that none of them rests
// on.
#include <optional>
#include <string>
#include <vector>

#include "areo/notebook/store.hpp"
#include "areo/wording/fit.hpp"

namespace areo::wording {

/// "in force from 2026-03-01, due for a check on 2027-03-01"
[[nodiscard]] std::string in_force_text(const notebook::CalibrationRecord& calibration);
/// Each one, with what changed since the one before.
[[nodiscard]] std::vector<std::string> calibration_lines(
    const notebook::Notebook& book, const notebook::InstrumentRecord& instrument);
/// The same for programs: a list.
[[nodiscard]] std::string calibrations_json(const notebook::Notebook& book,
                                            const notebook::InstrumentRecord& instrument);
/// The checks that are not among those that were used.
[[nodiscard]] std::vector<std::string> left_out_lines(
    const notebook::Notebook& book, const notebook::InstrumentRecord& instrument,
    const std::vector<notebook::CheckRecord>& used);
/// A fit for programs.
/// @param members  further ones, each with its comma in front
[[nodiscard]] std::string fit_json(const FitSummary& f, const std::optional<Moment>& in_force_from,
                                   const std::string& members);

}  // namespace areo::wording
