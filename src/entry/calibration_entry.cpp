// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/entry/calibration_entry.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "areo/core/error.hpp"
#include "areo/core/shell_word.hpp"

namespace areo::entry {

using notebook::CheckRecord;

namespace {

// After a year the new checks alone make the new calibration.
std::vector<CheckRecord> made_since(std::vector<CheckRecord> all, const std::string& since,
                                    const std::string& name) {
  if (since.empty()) return all;
  const Moment from = past_moment_from_text(since, now());
  std::erase_if(all, [&](const CheckRecord& c) { return c.made_at < from; });
  if (all.empty())
    throw Error{Errc::domain, fmt::format("{} has no check since {}", name, from.date()),
                fmt::format("areo calibrate show {} lists its checks", shell_word(name))};
  return all;
}

std::vector<CheckRecord> without(std::vector<CheckRecord> all,
                                 const std::vector<notebook::Id>& left_out, const std::string& name,
                                 const std::string& where) {
  for (const notebook::Id id : left_out)
    if (std::none_of(all.begin(), all.end(), [&](const auto& c) { return c.id == id; }))
      throw Error{Errc::domain, fmt::format("{} has no check {}{}", name, id, where),
                  fmt::format("areo calibrate show {} lists its checks", shell_word(name))};
  std::erase_if(all, [&](const CheckRecord& c) {
    return std::find(left_out.begin(), left_out.end(), c.id) != left_out.end();
  });
  return all;
}

}  // namespace

std::vector<CheckRecord> checks_to_fit(const notebook::Notebook& book,
                                       const notebook::InstrumentRecord& instrument,
                                       const std::string& since,
                                       const std::vector<notebook::Id>& left_out) {
  const std::string& name = instrument.name();
  return without(made_since(book.checks(instrument.id), since, name), left_out, name,
                 since.empty() ? "" : " since " + since);
}

notebook::CalibrationRecord calibration_record(const TypedCalibration& o,
                                               const wording::FitSummary& f) {
  notebook::CalibrationRecord r;
  r.instrument = f.instrument.id;
  // Unless stated, from the last check on; the first calibration holds for what was read before
  // too.
  r.from_stated = !o.from.empty();
  r.in_force_from = r.from_stated ? past_moment_from_text(o.from, now()) : f.checks.back().made_at;
  if (!o.due.empty()) r.due = day_end_from_text(o.due);
  if (r.due && *r.due <= r.in_force_from)
    throw Error{Errc::inconsistent,
                fmt::format("due on {} for a calibration in force from {}", r.due->date(),
                            r.in_force_from.date()),
                "the next check comes later; how much later is the owner's decision"};
  r.note = o.note;
  for (const CheckRecord& c : f.checks) r.checks.push_back(c.id);
  return r;
}

void refuse_again(const std::vector<notebook::CalibrationRecord>& earlier,
                  const notebook::CalibrationRecord& r, const std::string& name) {
  const auto same = [&](const notebook::CalibrationRecord& c) {
    return c.in_force_from == r.in_force_from && c.due == r.due && c.note == r.note &&
           c.checks.size() == r.checks.size() &&
           std::is_permutation(c.checks.begin(), c.checks.end(), r.checks.begin());
  };
  if (std::any_of(earlier.begin(), earlier.end(), same))
    throw Error{Errc::inconsistent,
                fmt::format("these checks of {} are in force from {} already", name,
                            r.in_force_from.date()),
                fmt::format("areo calibrate show {} shows it", shell_word(name))};
}

}  // namespace areo::entry
