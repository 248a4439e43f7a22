// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// The certificate of a user's own calibration: what the notebook has of it, and how it is told.
#include <optional>
#include <string>
#include <vector>

#include "areo/calibration/correction_budget.hpp"
#include "areo/calibration/drift.hpp"
#include "areo/document/document.hpp"
#include "areo/wording/fit.hpp"

namespace areo::paper {

/// What the notebook cannot know; empty = a line to be filled in by hand.
struct Issue {
  Moment on;
  std::string by, place, customer;
  bool full = false;
};

/// The calibration before, and what changed since.
struct Predecessor {
  notebook::CalibrationRecord calibration;
  wording::FitSummary summary;
  calibration::Drift drift;
};

/// A thermometer that checks were read with.
struct ThermometerTrace {
  std::string name;
  std::string rests_on;  ///< its own calibration, in words
};

/// Everything that a certificate tells of, before it is put into words.
struct Certified {
  Issue issue;
  notebook::InstrumentRecord instrument;
  notebook::CalibrationRecord calibration;
  wording::FitSummary summary;
  std::vector<calibration::CorrectionBudget> corrections;  ///< at marks along the scale
  std::vector<calibration::CorrectionBudget> budgets;      ///< at the ends and the middle
  std::vector<calibration::ConformityPoint> conformity;    ///< none if the checks contradict
  std::optional<Predecessor> before;
  std::optional<notebook::CalibrationRecord> after;  ///< took its place
  std::optional<notebook::Retirement> retired;
  std::vector<std::vector<std::string>> read_with;  ///< names of thermometers, one list a check
  std::vector<ThermometerTrace> thermometers;
  std::vector<notebook::CheckRecord> left_out;  ///< made in between, and not used
  std::string number;
};

/// The calibration to certify, by its number or by a day on which it was in force.
/// @throws Error{domain} if there is none, with what to do about it
[[nodiscard]] notebook::CalibrationRecord numbered_calibration(
    const notebook::Notebook& book, const notebook::InstrumentRecord& instrument,
    notebook::Id number);
[[nodiscard]] notebook::CalibrationRecord calibration_in_force(
    const notebook::Notebook& book, const notebook::InstrumentRecord& instrument, Moment at);

/// @param calibration  of the instrument
/// @throws Error{inconsistent} if it would be issued before its last check
[[nodiscard]] Certified certified(const notebook::Notebook& book,
                                  const notebook::InstrumentRecord& instrument,
                                  const notebook::CalibrationRecord& calibration,
                                  const Issue& issue);

[[nodiscard]] document::Document certificate_document(const Certified& c);
/// One object.
/// @param file  that the document was written to; empty: none
[[nodiscard]] std::string certificate_json(const Certified& c, const std::string& file);

}  // namespace areo::paper
