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

/// A fit that was made just now, whether it is in force, what it changes, and what to do next.
[[nodiscard]] std::vector<std::string> new_fit_lines(const FitSummary& f,
                                                     const notebook::CalibrationRecord& record,
                                                     const CalibrationChange& change);
/// The calibration in force with its checks, those left out of it, and the history.
/// @param in_force  nothing: there is none
/// @param remarks   on the correction now
[[nodiscard]] std::vector<std::string> calibration_lines(
    const notebook::Notebook& book, const notebook::InstrumentRecord& instrument,
    const std::optional<notebook::CalibrationRecord>& in_force,
    const std::vector<std::string>& remarks);

}  // namespace areo::wording
