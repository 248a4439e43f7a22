// SPDX-License-Identifier: GPL-3.0-or-later
// Which calibration of an instrument is certified.
#include <fmt/format.h>

#include "areo/core/error.hpp"
#include "areo/core/shell_word.hpp"
#include "areo/notebook/recompute.hpp"
#include "areo/paper/certificate.hpp"

namespace areo::paper {
namespace {

// What to do about an instrument that has no calibration.
std::string what_to_do(const notebook::Notebook& book, const notebook::InstrumentRecord& r) {
  const std::string& name = r.name();
  const auto checks = book.checks(r.id);
  if (!checks.empty())
    return fit(book, r, checks).consistent
               ? fmt::format("put its checks in force: areo calibrate fit {}", shell_word(name))
               : fmt::format(
                     "its checks contradict each other: areo calibrate fit {} says which "
                     "one to repeat",
                     shell_word(name));
  return fmt::format("check it first: areo calibrate {}, then areo calibrate fit {}",
                     r.thermometer() != nullptr
                         ? fmt::format("ice {} READING", shell_word(name))
                         : fmt::format("water {} READING TEMP", shell_word(name)),
                     shell_word(name));
}

std::vector<notebook::CalibrationRecord> all_of(const notebook::Notebook& book,
                                                const notebook::InstrumentRecord& instrument) {
  auto all = book.calibrations(instrument.id);
  if (all.empty())
    throw Error{Errc::domain, fmt::format("{} has no calibration to certify", instrument.name()),
                what_to_do(book, instrument)};
  return all;
}

}  // namespace

notebook::CalibrationRecord numbered_calibration(const notebook::Notebook& book,
                                                 const notebook::InstrumentRecord& instrument,
                                                 notebook::Id number) {
  for (const notebook::CalibrationRecord& r : all_of(book, instrument))
    if (r.id == number) return r;
  throw Error{Errc::domain, fmt::format("{} has no calibration {}", instrument.name(), number),
              fmt::format("areo calibrate show {} lists them", shell_word(instrument.name()))};
}

notebook::CalibrationRecord calibration_in_force(const notebook::Notebook& book,
                                                 const notebook::InstrumentRecord& instrument,
                                                 Moment at) {
  const auto all = all_of(book, instrument);
  if (const auto* r = notebook::newest(all, at)) return *r;
  throw Error{Errc::domain,
              fmt::format("no calibration of {} was in force on {}", instrument.name(), at.date()),
              fmt::format("the first came into force on {}", all.front().in_force_from.date())};
}

}  // namespace areo::paper
