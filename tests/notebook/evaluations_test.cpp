// SPDX-License-Identifier: GPL-3.0-or-later
// A set of checks is evaluated once, however many readings rest on it, and anew when it changed.
#include <gtest/gtest.h>

#include "areo/notebook/instrument_history.hpp"
#include "areo/notebook/recompute.hpp"
#include "batches.hpp"

namespace areo::notebook {
namespace {

// A stem that was calibrated twice, each time at a temperature read from a thermometer that was
// calibrated too: three sets of checks.
class Evaluated : public Batches {
 protected:
  Evaluated() {
    probe_ = book_.add(thermometer("probe-1"));
    CheckRecord ice = water_check(probe_, 0.5, "2026-02-01T10:00Z");
    ice.method = CheckMethod::ice;
    put_in_force(probe_, ice, "2026-02-01T10:00Z");
    put_in_force(stem_, in_water(1.001, "2026-03-01T10:00Z"), "2026-03-01T10:00Z");
    put_in_force(stem_, in_water(1.002, "2026-04-01T10:00Z"), "2026-04-01T10:00Z");
  }
  [[nodiscard]] CheckRecord in_water(double reading, const char* at) const {
    CheckRecord c = water_check(stem_, reading, at);
    c.thermometer = probe_;
    return c;
  }
  void put_in_force(Id instrument, const CheckRecord& check, const char* from) {
    book_.add(calibration(instrument, {book_.add(check)}, from));
  }
  [[nodiscard]] std::size_t since_built() const { return book_.evaluations() - before_; }
  // What adding them had to look at does not count.
  void count_from_here() { before_ = book_.evaluations(); }

  static constexpr std::size_t sets = 3;
  Id probe_ = 0;

 private:
  std::size_t before_ = 0;
};

TEST_F(Evaluated, OnceForAllReadings) {
  count_from_here();
  for (const auto between :
       {InstrumentHistory::Between::in_force, InstrumentHistory::Between::interpolated}) {
    InstrumentHistory history{book_, between};
    for (const char* at : {"2026-02-20T10:00Z", "2026-03-05T10:00Z", "2026-03-20T10:00Z",
                           "2026-04-05T10:00Z", "2027-06-01T10:00Z"}) {
      EXPECT_GT(history.correction(stem_, day(at)).checks, 0);
      (void)history.temperature(celsius_point(20), 21.0, 0.5, probe_, day(at));
      (void)correction_in_force(book_, book_.instrument(stem_), day(at));
    }
  }
  EXPECT_EQ(since_built(), sets);
}

TEST_F(Evaluated, OnceForOneReadingAfterTheOther) {
  (void)InstrumentHistory{book_}.correction(stem_, day("2026-05-01T10:00Z"));
  count_from_here();
  for (const char* at : {"2026-05-01T10:00Z", "2026-05-02T10:00Z", "2026-05-03T10:00Z"}) {
    note(1.020, at);
    (void)InstrumentHistory{book_}.correction(stem_, day(at));
  }
  EXPECT_EQ(since_built(), 0U);
}

TEST_F(Evaluated, AnewWhenACheckOfTheThermometerCounts) {
  const Moment at = day("2026-03-10T10:00Z");
  const double offset = correction_in_force(book_, book_.instrument(stem_), at).offset;
  CheckRecord ice = water_check(probe_, 1.5, "2026-02-02T10:00Z");
  ice.method = CheckMethod::ice;
  put_in_force(probe_, ice, "2026-02-02T10:00Z");
  // 1 °C of water at 21 °C is 0.0002 of its gravity.
  EXPECT_NEAR(correction_in_force(book_, book_.instrument(stem_), at).offset - offset, 0.0002,
              0.00005);
}

TEST_F(Evaluated, AnewWhenAnotherOneWrote) {
  const Moment at = day("2026-03-10T10:00Z");
  const double offset = correction_in_force(book_, book_.instrument(stem_), at).offset;
  {
    Notebook other{path()};
    CheckRecord ice = water_check(probe_, 1.5, "2026-02-02T10:00Z");
    ice.method = CheckMethod::ice;
    other.add(calibration(probe_, {other.add(ice)}, "2026-02-02T10:00Z"));
  }
  EXPECT_NE(correction_in_force(book_, book_.instrument(stem_), at).offset, offset);
}

// What was taken back counts no more.
TEST_F(Evaluated, AnewWhenSomethingWasTakenBack) {
  const Moment at = day("2026-03-10T10:00Z");
  const double offset = correction_in_force(book_, book_.instrument(stem_), at).offset;
  book_.at_once([&] {
    CheckRecord ice = water_check(probe_, 1.5, "2026-02-02T10:00Z");
    ice.method = CheckMethod::ice;
    put_in_force(probe_, ice, "2026-02-02T10:00Z");
    EXPECT_NE(correction_in_force(book_, book_.instrument(stem_), at).offset, offset);
    return false;
  });
  EXPECT_EQ(correction_in_force(book_, book_.instrument(stem_), at).offset, offset);
}

}  // namespace
}  // namespace areo::notebook
