// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/wording/calibration_history.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <span>

#include "areo/core/shell_word.hpp"
#include "areo/notebook/recompute.hpp"
#include "areo/wording/changes.hpp"
#include "areo/wording/check.hpp"
#include "areo/wording/drift.hpp"
#include "areo/wording/instrument.hpp"

namespace areo::wording {

using notebook::CheckRecord;
using notebook::InstrumentRecord;

namespace {

// "in force from 2026-03-01, due for a check on 2027-03-01"
std::string in_force_text(const notebook::CalibrationRecord& c) {
  return fmt::format("in force from {}{}", c.in_force_from.date(),
                     c.due ? ", due for a check on " + c.due->date() : "");
}

// Each one, with what changed since the one before.
std::vector<std::string> history_lines(const notebook::Notebook& book,
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

// The checks that are not among those that were used.
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

// The first of the checks after the longest pause, if that is so long that the instrument may have
// changed in it; they are in order of time.
const CheckRecord* after_long_pause(const std::vector<CheckRecord>& checks) {
  constexpr std::int64_t day_s = 86400;
  std::int64_t longest = 60 * day_s;  // judgement: checks of one occasion lie closer together
  const CheckRecord* first = nullptr;
  for (std::size_t i = 1; i < checks.size(); ++i) {
    const std::int64_t pause = checks[i].made_at.seconds - checks[i - 1].made_at.seconds;
    if (pause <= longest) continue;
    longest = pause;
    first = &checks[i];
  }
  return first;
}

void add_long_pause(std::vector<std::string>& lines, const FitSummary& f) {
  if (const CheckRecord* first = after_long_pause(f.checks))
    lines.push_back(
        fmt::format("note: old and new checks are fitted together; those from {0} on alone: areo "
                    "calibrate fit {1} --since {0}",
                    first->made_at.date(), shell_word(f.instrument.name())));
}

void add_contradiction(std::vector<std::string>& lines, const FitSummary& f) {
  lines.emplace_back(
      "not put in force: the checks contradict each other beyond their uncertainties");
  lines.push_back(
      f.fit.suspect
          ? fmt::format(
                "next: repeat check {0}; without it the others agree best (areo calibrate fit "
                "{1} --without {0})",
                f.checks[*f.fit.suspect].id, shell_word(f.instrument.name()))
          : "next: repeat both checks; two alone cannot tell which of them is wrong");
}

std::string own_check_text(const notebook::CalibrationRecord& c) {
  return fmt::format("  {}; a user's check, not an accredited calibration", in_force_text(c));
}

std::string first_step(const InstrumentRecord& instrument, bool checked) {
  const std::string name = shell_word(instrument.name());
  if (checked) return "areo calibrate fit " + name;
  return instrument.thermometer() == nullptr
             ? fmt::format("areo calibrate water {} READING TEMP", name)
             : fmt::format("areo calibrate ice {} READING", name);
}

}  // namespace

std::vector<std::string> new_fit_lines(const FitSummary& f,
                                       const notebook::CalibrationRecord& record,
                                       const CalibrationChange& change) {
  std::vector<std::string> all = fit_lines(f);
  if (!f.fit.consistent) {
    add_long_pause(all, f);
    add_contradiction(all, f);
    return all;
  }
  all.push_back(own_check_text(record));
  for (const std::string& text : changes_lines(change.changes)) all.push_back("  " + text);
  if (change.drift)
    for (const std::string& text : drift_lines(f.instrument, *change.before, *change.drift))
      all.push_back("  " + text);
  add_long_pause(all, f);
  all.push_back(fmt::format("next: areo {} READING --temp TEMP --{} {}",
                            f.instrument.refractometer() != nullptr ? "refract" : "correct",
                            f.instrument.thermometer() == nullptr ? "instrument" : "thermometer",
                            shell_word(f.instrument.name())));
  return all;
}

std::vector<std::string> calibration_lines(
    const notebook::Notebook& book, const InstrumentRecord& instrument,
    const std::optional<notebook::CalibrationRecord>& in_force,
    const std::vector<std::string>& remarks) {
  std::vector<std::string> all;
  const auto add = [&all](const std::vector<std::string>& more) {
    all.insert(all.end(), more.begin(), more.end());
  };
  std::vector<CheckRecord> used;
  if (in_force) {
    used = checks_of(book, *in_force);
    add(fit_lines(fit_summary(book, instrument, used)));
    all.push_back(own_check_text(*in_force));
  } else {
    all.push_back(
        fmt::format("{}: no calibration in force; its error is taken as within one division",
                    instrument.name()));
  }
  add(left_out_lines(book, instrument, used));
  add(history_lines(book, instrument));
  for (const std::string& remark : remarks) all.push_back("note: " + remark);
  if (!in_force)
    all.push_back("next: " + first_step(instrument, !book.checks(instrument.id).empty()));
  return all;
}

}  // namespace areo::wording
