// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// The calibrations of an instrument, one after the other, and the checks that none of them rests
// on.
#include <optional>
#include <string>
#include <vector>

#include "areo/calibration/drift.hpp"
#include "areo/notebook/store.hpp"
#include "areo/wording/fit.hpp"

namespace areo::wording {

/// "in force from 2026-03-01, due for a check on 2027-03-01"
[[nodiscard]] std::string in_force_text(const notebook::CalibrationRecord& calibration);
/// Each one, with what changed since the one before.
[[nodiscard]] std::vector<std::string> calibration_lines(
    const notebook::Notebook& book, const notebook::InstrumentRecord& instrument);
/// The checks that are not among those that were used.
[[nodiscard]] std::vector<std::string> left_out_lines(
    const notebook::Notebook& book, const notebook::InstrumentRecord& instrument,
    const std::vector<notebook::CheckRecord>& used);
/// What a new calibration changed.
struct CalibrationChange {
  const notebook::CalibrationRecord* before = nullptr;  ///< of which the drift was seen, if it was
  std::optional<calibration::Drift> drift{};
  std::vector<notebook::ReadWith> changes{};  ///< what was read before, and counts otherwise now
};
/// A fit that was made just now, for programs.
/// @param record  it as a calibration, in force where the checks agree
[[nodiscard]] std::string fit_json(const FitSummary& f, const notebook::CalibrationRecord& record,
                                   const CalibrationChange& change);
/// The calibration in force for programs, with those before it.
[[nodiscard]] std::string calibration_json(const notebook::Notebook& book, const FitSummary& f,
                                           const notebook::CalibrationRecord& in_force);
/// The same of an instrument that has none.
[[nodiscard]] std::string no_calibration_json(const notebook::InstrumentRecord& instrument,
                                              const std::vector<std::string>& remarks);

}  // namespace areo::wording
