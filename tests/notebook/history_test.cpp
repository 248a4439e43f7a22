// SPDX-License-Identifier: GPL-3.0-or-later
// Calibrations of an instrument over the years: which one counts, when it is due, what changed.
#include <gtest/gtest.h>

#include "areo/core/error.hpp"
#include "areo/notebook/recompute.hpp"
#include "temporary.hpp"

namespace areo::notebook {
namespace {

Moment day(const char* text) { return moment_from_text(text); }

// Checked in water on two days; due a year after the first.
class History : public TemporaryFolder {
 protected:
  History() : book_{path(), Open::create} {
    const Id id = book_.add(hydrometer("stem-1"));
    stem_ = book_.instrument(id);
    const Id first = book_.add(water_check(id, 1.001, "2024-03-01T10:00Z"));
    const Id second = book_.add(water_check(id, 1.004, "2025-05-01T10:00Z"));
    CalibrationRecord r = calibration(id, {first}, "2024-03-01T10:00Z");
    r.due = day("2025-03-01T10:00Z");
    book_.add(r);
    book_.add(calibration(id, {second}, "2025-05-01T10:00Z"));
  }
  [[nodiscard]] std::vector<std::string> remarks(const char* at) const {
    return correction_in_force(book_, stem_, day(at)).remarks;
  }
  [[nodiscard]] instruments::Correction between(const char* at) const {
    return interpolated_correction(book_, stem_, day(at));
  }
  Notebook book_;
  InstrumentRecord stem_;
};

using Remarks = std::vector<std::string>;

TEST_F(History, AnOverdueCalibrationIsRemarked) {
  EXPECT_EQ(remarks("2025-03-01T10:00Z"), Remarks{});
  EXPECT_EQ(remarks("2025-03-01T10:00:01Z"),
            Remarks{"stem-1 was due for a check on 2025-03-01 (calibrated again on 2025-05-01)"});
  EXPECT_EQ(remarks("2025-05-01T10:00Z"), Remarks{});  // the new one has no date
  EXPECT_EQ(
      remarks("2024-01-01"),
      Remarks{"stem-1 was checked later, on 2024-03-01: that holds for earlier readings too"});
}

TEST_F(History, TheReminderSaysWhatToDo) {
  InstrumentRecord probe;
  probe.instrument = instruments::Thermometer{"probe-1", -10, 110, 1};
  probe.added_at = day("2024-01-01T00:00Z");
  probe = book_.instrument(book_.add(probe));
  CheckRecord ice = water_check(probe.id, 0.5, "2024-03-01T10:00Z");
  ice.method = CheckMethod::ice;
  CalibrationRecord r = calibration(probe.id, {book_.add(ice)}, "2024-03-01T10:00Z");
  r.due = day("2025-03-01T10:00Z");
  book_.add(r);
  EXPECT_EQ(
      correction_in_force(book_, probe, day("2025-04-01T00:00Z")).remarks,
      Remarks{"probe-1 was due for a check on 2025-03-01 (areo calibrate ice probe-1 READING)"});
  // A check of the hydrometer at a temperature read from it says so too, once.
  CheckRecord with_probe = water_check(stem_.id, 1.001, "2025-04-01T10:00Z");
  with_probe.thermometer = probe.id;
  EXPECT_EQ(remarks_on_thermometers(book_, std::vector{with_probe, with_probe}).size(), 1U);
  with_probe.made_at = day("2024-04-01T10:00Z");
  EXPECT_EQ(remarks_on_thermometers(book_, std::vector{with_probe}), Remarks{});
}

TEST_F(History, ARetiredInstrumentKeepsItsOldReadings) {
  book_.retire(stem_.id, day("2025-06-01T10:00Z"), "broke");
  EXPECT_EQ(remarks("2025-06-01T10:00Z"), Remarks{});
  EXPECT_EQ(remarks("2025-06-01T10:00:01Z"), Remarks{"stem-1 retired on 2025-06-01: broke"});
  EXPECT_EQ(correction_in_force(book_, stem_, day("2025-07-01T00:00Z")).offset,
            correction_in_force(book_, stem_, day("2025-05-20T00:00Z")).offset);
}

TEST_F(History, InterpolatesBetweenTheCalibrationsAroundAReading) {
  const auto first = correction_in_force(book_, stem_, day("2024-03-01T10:00Z"));
  const auto second = correction_in_force(book_, stem_, day("2025-05-01T10:00Z"));
  ASSERT_NEAR(second.at(1.0) - first.at(1.0), -0.003, 1e-12);
  EXPECT_EQ(between("2024-03-01T10:00Z").offset, first.offset);
  EXPECT_EQ(between("2025-05-01T10:00Z").offset, second.offset);
  // 426 days; after 213 of them half of the change.
  const auto half = between("2024-09-30T10:00Z");
  EXPECT_NEAR(half.at(1.0), (first.at(1.0) + second.at(1.0)) / 2, 1e-12);
  EXPECT_EQ(half.remarks, Remarks{});
  EXPECT_EQ(half.provenance,
            "50 % of the way in time from 1 check, in force from 2024-03-01 to 1 check, in force "
            "from 2025-05-01");
  EXPECT_EQ(between("2025-04-01T00:00Z").remarks, Remarks{});  // overdue, but checked since
}

TEST_F(History, DoesNotInterpolateBeforeTheFirstAndAfterTheLast) {
  const auto after = between("2025-07-01T00:00Z");
  EXPECT_EQ(after.offset, correction_in_force(book_, stem_, day("2025-07-01T00:00Z")).offset);
  EXPECT_EQ(after.provenance, "1 check, in force from 2025-05-01");  // the same on any day
  EXPECT_EQ(after.remarks, Remarks{"stem-1: no calibration after 2025-07-01 to interpolate with"});
  const auto before = between("2024-01-01T00:00Z");
  EXPECT_EQ(before.offset, correction_in_force(book_, stem_, day("2024-03-01T10:00Z")).offset);
  EXPECT_EQ(before.remarks,
            (Remarks{"stem-1 was checked later, on 2024-03-01: that holds for earlier readings too",
                     "stem-1: no calibration before 2024-01-01 to interpolate with"}));
}

// Of two calibrations from the same moment the one added last counts, as the one after too.
TEST_F(History, TheNextCalibrationIsTheOneThatWillBeInForce) {
  const Id third = book_.add(water_check(stem_.id, 1.000, "2025-05-01T10:00Z"));
  book_.add(calibration(stem_.id, {third}, "2025-05-01T10:00Z"));
  const auto second = correction_in_force(book_, stem_, day("2025-05-01T10:00Z"));
  EXPECT_NEAR(
      between("2024-09-30T10:00Z").at(1.0),
      (correction_in_force(book_, stem_, day("2024-09-30T10:00Z")).at(1.0) + second.at(1.0)) / 2,
      1e-12);
}

// Two readings of one water with one hydrometer: what is left in their difference is the eye, a
// triangle of half a division twice, and the temperature, rectangular, where water expands by
// 0.0002 a degree (SG at 21 °C) and the glass is shared.
TEST_F(History, DriftComparesTheChecksTogether) {
  const auto all = book_.calibrations(stem_.id);
  const calibration::Drift d = drift(book_, stem_, all[0], all[1]);
  ASSERT_EQ(d.points.size(), 1U);
  EXPECT_NEAR(d.points[0].difference, -0.003, 1e-12);
  const double eye = 0.001 / std::sqrt(6.0);
  const double thermal = 0.0002 * 0.5 / std::sqrt(3.0);
  EXPECT_NEAR(d.points[0].u, std::sqrt(2.0) * std::hypot(eye, thermal), 5e-6);  // the 0.0002
  EXPECT_EQ(d.verdict, calibration::DriftVerdict::drifted);
  EXPECT_EQ(drift(book_, stem_, all[0], all[0]).verdict, calibration::DriftVerdict::same_checks);
}

}  // namespace
}  // namespace areo::notebook
