// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// A calibration with the checks behind it, in words.
#include <string>
#include <vector>

#include "areo/calibration/fit.hpp"
#include "areo/notebook/store.hpp"

namespace areo::wording {

struct FitSummary {
  notebook::InstrumentRecord instrument;
  std::vector<notebook::CheckRecord> checks;
  calibration::CheckSet evaluated;
  calibration::CorrectionFit fit;
  double tolerance = 0;
  std::vector<std::string> remarks;  ///< about the thermometers of the checks
};
[[nodiscard]] FitSummary fit_summary(const notebook::Notebook& book,
                                     const notebook::InstrumentRecord& instrument,
                                     std::vector<notebook::CheckRecord> checks);

/// "check 2: sugar 52 g + 448 g water at 21 °C: shows 1.042, should show 1.0413 ± 0.0006"
[[nodiscard]] std::string check_text(const notebook::InstrumentRecord& instrument,
                                     const notebook::CheckRecord& r, const calibration::Check& c);
/// What to do to a reading: "SUBTRACT 0.0009 from every reading between 1.001 and 1.083", both ends
/// of a line if they differ as printed, or "SUBTRACT 0.0012, checked at 1.001 only".
[[nodiscard]] std::string instruction_text(const FitSummary& f);
/// "the checks agree: chi-squared 2.1, limit 6.0 at 95 %", or why nobody can say.
[[nodiscard]] std::string agreement_text(const FitSummary& f);
/// "maximum permissible error 0.002 in this range, if the error runs straight between its checks:
/// kept". Of checks that contradict each other there is no verdict.
[[nodiscard]] std::string verdict_text(const FitSummary& f);
/// What to add to a reading, each check with what the fit leaves of it, and whether they agree; the
/// first line is the headline.
[[nodiscard]] std::vector<std::string> fit_lines(const FitSummary& f);

}  // namespace areo::wording
