// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/wording/calibration_history.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <span>

#include "areo/notebook/recompute.hpp"
#include "areo/wording/check.hpp"
#include "areo/wording/drift.hpp"
#include "areo/wording/instrument.hpp"

namespace areo::wording {

using notebook::CheckRecord;
using notebook::InstrumentRecord;

std::string in_force_text(const notebook::CalibrationRecord& c) {
  return fmt::format("in force from {}{}", c.in_force_from.date(),
                     c.due ? ", due for a check on " + c.due->date() : "");
}

std::vector<std::string> calibration_lines(const notebook::Notebook& book,
                                           const InstrumentRecord& instrument) {
  std::vector<std::string> all;
  const notebook::CalibrationRecord* before = nullptr;
  const auto calibrations = book.calibrations(instrument.id);
  for (const auto& c : calibrations) {
    all.push_back(fmt::format("  calibration {}: check{} {}, {}{}", c.id,
                              c.checks.size() == 1 ? "" : "s", fmt::join(c.checks, ", "),
                              in_force_text(c), c.note.empty() ? "" : "; " + c.note));
    if (before != nullptr)
      for (const std::string& text :
           drift_lines(instrument, *before, drift(book, instrument, *before, c)))
        all.push_back("  " + text);
    before = &c;
  }
  return all;
}

std::vector<std::string> left_out_lines(const notebook::Notebook& book,
                                        const InstrumentRecord& instrument,
                                        const std::vector<CheckRecord>& used) {
  std::vector<std::string> all;
  for (const CheckRecord& r : book.checks(instrument.id)) {
    if (std::any_of(used.begin(), used.end(), [&](const auto& u) { return u.id == r.id; }))
      continue;
    all.push_back(
        "  " +
        check_text(instrument, r, evaluate(book, instrument, std::span{&r, 1}).checks.front()) +
        (used.empty() ? "" : "; not used"));
  }
  return all;
}

}  // namespace areo::wording
