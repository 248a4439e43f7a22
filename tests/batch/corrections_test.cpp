// SPDX-License-Identifier: GPL-3.0-or-later
// Two corrections of one instrument behind one result.
#include <gtest/gtest.h>

#include "areo/batch/batch.hpp"
#include "notebook/temporary.hpp"

namespace areo::batch {
namespace {

using notebook::Id;

class Corrections : public notebook::TemporaryFolder {
 protected:
  Corrections() : book_{path(), notebook::Open::create} {
    stem_ = book_.add(notebook::hydrometer("stem-1"));
    notebook::BatchRecord b;
    b.name = "PT-1";
    b.started_at = moment_from_text("2026-05-01");
    batch_ = book_.add(b);
    note(1.024, "2026-05-20T10:00Z", notebook::Stage::original);
    note(1.023, "2026-05-24T10:00Z");
    note(1.020, "2026-05-26T10:00Z");
  }
  void note(double shown, const char* at, notebook::Stage stage = notebook::Stage::present) {
    notebook::ReadingRecord r;
    r.batch = batch_;
    r.instrument = stem_;
    r.indication = shown;
    r.stage = stage;
    r.temperature_c = 20;
    r.made_at = r.noted_at = moment_from_text(at);
    book_.add(std::span{&r, 1});
  }
  void calibrate(double in_water, const char* at, bool stated = false) {
    notebook::CalibrationRecord c =
        notebook::calibration(stem_, {book_.add(notebook::water_check(stem_, in_water, at))}, at);
    c.from_stated = stated;
    book_.add(c);
  }
  std::vector<CorrectionChange> changes() {
    Batch b{book_, "PT-1"};
    return b.correction_changes(b.behind(b.samples().back()));
  }
  notebook::Notebook book_;
  Id stem_ = 0, batch_ = 0;
};

TEST_F(Corrections, OneThroughoutIsNoChange) {
  EXPECT_TRUE(changes().empty());
  calibrate(1.004, "2026-05-25T10:00Z");  // holds for what was read before, too
  EXPECT_TRUE(changes().empty());
}

// In water at 21 °C, 0.99981 is right: 0.0042 too high is far beyond the ± of such a check.
TEST_F(Corrections, NoneAndOneThatFindsItWrong) {
  calibrate(1.004, "2026-05-25T10:00Z", true);
  const auto all = changes();
  ASSERT_EQ(all.size(), 1u);
  EXPECT_EQ(all[0].instrument, "stem-1");
  EXPECT_FALSE(all[0].before.has_value());
  ASSERT_TRUE(all[0].after.has_value());
  EXPECT_EQ(all[0].last_before.date(), "2026-05-24");
  EXPECT_NEAR(all[0].difference, -0.0042, 1e-4);
  EXPECT_LT(all[0].expanded, 0.0042);
}

TEST_F(Corrections, NoneAndOneThatFindsItRight) {
  calibrate(1.000, "2026-05-25T10:00Z", true);
  EXPECT_TRUE(changes().empty());
}

TEST_F(Corrections, TwoThatDifferBeyondTheirDrift) {
  calibrate(1.001, "2026-05-02T10:00Z");
  calibrate(1.006, "2026-05-25T10:00Z");
  const auto all = changes();
  ASSERT_EQ(all.size(), 1u);
  EXPECT_NEAR(all[0].difference, -0.005, 1e-6);
  EXPECT_TRUE(all[0].before && all[0].after);
}

TEST_F(Corrections, TwoThatDoNot) {
  calibrate(1.001, "2026-05-02T10:00Z");
  calibrate(1.0012, "2026-05-25T10:00Z");
  EXPECT_TRUE(changes().empty());
}

TEST_F(Corrections, WithEitherOneTheErrorCancels) {
  calibrate(1.001, "2026-05-02T10:00Z");
  calibrate(1.006, "2026-05-25T10:00Z");
  Batch b{book_, "PT-1"};
  const CorrectionChange c = b.correction_changes(b.behind(b.samples().back())).at(0);
  const Sample& last = b.samples().back();
  const auto strength = [](const Point& p) {
    return p.result().at("alcohol_percent_vol").value.estimate;
  };
  const double mixed = strength(b.point(last));
  const double first = strength(b.point(last, c.id, c.before));
  const double second = strength(b.point(last, c.id, c.after));
  EXPECT_NEAR(first, second, 0.02);  // the slope of density against strength, over 0.005
  EXPECT_GT(mixed, first + 0.5);     // 0.005 in gravity is about 0.65 % vol
  EXPECT_EQ(strength(b.point(last)), mixed);
}

}  // namespace
}  // namespace areo::batch
