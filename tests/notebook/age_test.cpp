// SPDX-License-Identifier: GPL-3.0-or-later
// What the time since a calibration does to a correction: a change that was seen may go on, and one
// that is old says so.
#include <gtest/gtest.h>

#include <cmath>

#include "areo/notebook/instrument_history.hpp"
#include "areo/notebook/recompute.hpp"
#include "temporary.hpp"

namespace areo::notebook {
namespace {

class Age : public TemporaryFolder {
 protected:
  // Two checks in water, a year apart, that find the scale 0.0044 different.
  Age() {
    stem_ = book_.add(hydrometer("stem-1"));
    calibrate(1.000, "2024-03-01T10:00Z");
  }
  Id calibrate(double shown, const char* at) {
    const Id check = book_.add(water_check(stem_, shown, at));
    return book_.add(calibration(stem_, {check}, at));
  }
  [[nodiscard]] instruments::Correction at(const char* moment) const {
    return correction_in_force(book_, book_.instrument(stem_), moment_from_text(moment));
  }
  Notebook book_{path(), Open::create};
  Id stem_ = 0;
};

// |D| / √3 a year later, nothing on the day, half after half of the time between.
TEST_F(Age, AChangeThatWasSeenMayGoOn) {
  calibrate(1.0044, "2025-03-01T10:00Z");
  const auto today = at("2025-03-01T10:00Z"), half = at("2025-08-30T22:00Z"),
             later = at("2026-03-01T10:00Z"), much_later = at("2030-03-01T10:00Z");
  const auto drift = [&](const instruments::Correction& c) {
    const double u = c.uncertainty_at(1.004), own = today.uncertainty_at(1.004);
    return std::sqrt(u * u - own * own);
  };
  EXPECT_EQ(today.drift_at(1.004), 0);
  EXPECT_NEAR(drift(half), 0.0044 / 2 / std::sqrt(3.0), 2e-5);
  EXPECT_NEAR(drift(later), 0.0044 / std::sqrt(3.0), 1e-5);
  EXPECT_NEAR(drift(much_later), drift(later), 1e-12);  // that is all that was ever seen
  EXPECT_GT(later.uncertainty_at(1.004), 0.0025);
}

TEST_F(Age, OneCalibrationShowsNoDriftAndNorDoOnesThatShareAChecks) {
  EXPECT_EQ(at("2026-03-01T10:00Z").drift_at(1.004), 0);
  const auto all = book_.calibrations(stem_);
  CalibrationRecord again = calibration(stem_, all[0].checks, "2025-03-01T10:00Z");
  again.checks.push_back(book_.add(water_check(stem_, 1.004, "2025-03-01T10:00Z")));
  book_.add(again);
  EXPECT_EQ(at("2026-03-01T10:00Z").drift_at(1.004), 0);
}

// Readings of one instrument still share what is known of it, however old it is at each.
TEST_F(Age, ReadingsShareACorrectionOfAnyAge) {
  calibrate(1.0044, "2025-03-01T10:00Z");
  const auto early = at("2025-04-01T10:00Z"), late = at("2025-05-01T10:00Z");
  EXPECT_TRUE(same_knowledge(early, late));
  EXPECT_LT(early.drift_part, late.drift_part);
  InstrumentHistory shelf{book_};
  EXPECT_EQ(shelf.correction(stem_, moment_from_text("2025-05-01T10:00Z")).drift_part,
            late.drift_part);
  EXPECT_EQ(shelf.correction(stem_, moment_from_text("2025-04-01T10:00Z")).drift_part,
            early.drift_part);
}

TEST_F(Age, AfterAYearItIsOldUnlessItsOwnerSaidWhenToCheckAgain) {
  EXPECT_TRUE(at("2025-03-01T10:00Z").remarks.empty());
  const auto old = at("2025-03-05T10:00Z").remarks;
  ASSERT_EQ(old.size(), 1u);
  EXPECT_EQ(old[0], "stem-1 was last calibrated on 2024-03-01, more than a year before");
  const Id check = book_.add(water_check(stem_, 1.000, "2025-06-01T10:00Z"));
  CalibrationRecord due = calibration(stem_, {check}, "2025-06-01T10:00Z");
  due.due = moment_from_text("2027-06-01T10:00Z");
  book_.add(due);
  EXPECT_TRUE(at("2026-10-01T10:00Z").remarks.empty());
}

// What nobody named is taken as pure, and its doubt is how far tap water lies from that.
TEST_F(Age, AWaterThatNobodyNamedIsPureWithADoubt) {
  CheckRecord c = water_check(stem_, 1.000, "2025-03-01T10:00Z");
  const auto expected = [&] {
    return evaluate(book_, book_.instrument(stem_), std::span{&c, 1}).checks[0].expected;
  };
  const auto pure = expected();
  c.water = calibration::Water::tap;
  const auto tap = expected();
  c.water.reset();
  const auto unknown = expected();
  EXPECT_NEAR(tap.estimate - pure.estimate, 0.0003, 1e-5);
  EXPECT_NEAR(unknown.estimate, pure.estimate, 1e-12);
  const double more = tap.estimate - pure.estimate;
  EXPECT_NEAR(unknown.u, std::hypot(tap.u, more), 1e-6);  // the mean square about pure water
}

// What is marked on an instrument, and how a check was made, come back as they went in.
TEST_F(Age, NewColumnsComeBack) {
  InstrumentRecord r = hydrometer("stem-2");
  auto& h = std::get<instruments::Hydrometer>(r.instrument);
  h.stem_diameter_mm = 4.8;
  h.mass_g = 31.2;
  h.made_for_mn_m = 55;
  r.maker = "a maker";
  r.serial = "17-4";
  const InstrumentRecord back = book_.instrument(book_.add(r));
  EXPECT_EQ(back.maker, "a maker");
  EXPECT_EQ(back.serial, "17-4");
  EXPECT_EQ(back.hydrometer()->stem_diameter_mm, 4.8);
  EXPECT_EQ(back.hydrometer()->mass_g, 31.2);
  EXPECT_EQ(back.hydrometer()->made_for_mn_m, 55);
  CheckRecord c = water_check(back.id, 1.0, "2025-03-01T10:00Z");
  c.water = calibration::Water::tap;
  c.balance = "kitchen";
  c.apart = true;
  book_.add(c);
  const CheckRecord seen = book_.checks(back.id).at(0);
  EXPECT_EQ(seen.water, calibration::Water::tap);
  EXPECT_EQ(seen.balance, "kitchen");
  EXPECT_TRUE(seen.apart);
}

}  // namespace
}  // namespace areo::notebook
