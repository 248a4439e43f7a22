// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/trend/passing.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <string>
#include <vector>

#include "areo/analysis/limit.hpp"
#include "notebook/temporary.hpp"

namespace areo::trend {
namespace {

using uncertainty::Side;

constexpr auto below = Side::below, above = Side::above, open = Side::cannot_tell;

// One reading a point: its side, and whether its estimate is less than the limit.
Bracket bracket(const std::vector<std::pair<Side, bool>>& readings) {
  std::vector<Decided> all;
  all.reserve(readings.size());
  for (const auto& [side, less] : readings) all.push_back({all.size(), side, less});
  return bracket_of(all);
}

TEST(Bracket, OfNoReadingIsOpen) {
  const Bracket b = bracket({});
  EXPECT_FALSE(b.below_until || b.above_from || b.contradiction);
  EXPECT_EQ(b.side_at(0), open);
}

TEST(Bracket, HoldsWhatLiesBetweenTheTwoSides) {
  const Bracket b =
      bracket({{below, true}, {below, true}, {open, true}, {open, false}, {above, false}});
  EXPECT_EQ(b.below_until, 1U);
  EXPECT_EQ(b.above_from, 4U);
  EXPECT_EQ(b.side_at(4), above);
}

TEST(Bracket, IsBelowOnlyWhereTheLastReadingSaysSo) {
  EXPECT_EQ(bracket({{below, true}, {below, true}}).side_at(1), below);
  EXPECT_EQ(bracket({{below, true}, {open, true}}).side_at(1), open);
}

// What one reading decides and all later ones deny, if only by their estimates, was chance.
TEST(Bracket, ADecisionThatStandsAloneIsNone) {
  EXPECT_FALSE(bracket({{open, true}, {above, false}, {open, true}}).above_from);
  EXPECT_FALSE(bracket({{open, false}, {below, true}}).below_until);
  EXPECT_EQ(bracket({{open, true}, {above, false}, {open, false}}).above_from, 1U);
}

TEST(Bracket, BelowAfterAboveContradicts) {
  // Which two is known also where one of them, standing alone, decides nothing.
  const Bracket b = bracket({{below, true}, {above, false}, {open, true}, {below, true}});
  ASSERT_TRUE(b.contradiction);
  EXPECT_EQ(*b.contradiction, std::pair(std::size_t{1}, std::size_t{3}));
  EXPECT_FALSE(b.above_from);
  EXPECT_EQ(b.side_at(3), open);
}

// Bubbles make a strength seem less: such an estimate denies nothing.
TEST(Bracket, LiftedReadingsDenyNothing) {
  const std::vector<Decided> all{{0, above, false, false}, {1, open, true, true}};
  EXPECT_EQ(bracket_of(all).above_from, 0U);
}

TEST(KeepWithin, CutsToWhatTheReadingsDecide) {
  Crossing c{5.0, 2.0, 9.0};
  keep_within(c, 3.0, 6.0);
  EXPECT_EQ(c.lo, 3.0);
  EXPECT_EQ(c.hi, 6.0);
  EXPECT_EQ(c.day, 5.0);
  Crossing endless{8.0};
  keep_within(endless, 3.0, 6.0);
  EXPECT_EQ(endless.lo, 3.0);
  EXPECT_EQ(endless.hi, 6.0);
  EXPECT_EQ(endless.day, 6.0);
  Crossing apart{5.0, 4.0, 5.5};
  keep_within(apart, 6.0, 8.0);
  EXPECT_FALSE(apart.day || apart.lo || apart.hi);
  EXPECT_FALSE(apart.refused.empty());
}

// A stem of 0.002 that nobody checked, 1.030 at the beginning.
class Passings : public notebook::TemporaryFolder {
 protected:
  Passings() : book_{path(), notebook::Open::create} {
    stem_ = book_.add(notebook::hydrometer("stem-1"));
    notebook::BatchRecord b;
    b.name = "PT-1";
    b.started_at = moment_from_text("2026-03-01");
    batch_ = book_.add(b);
    read(1.030, "2026-03-01T10:00Z", notebook::Stage::original);
  }
  [[nodiscard]] notebook::ReadingRecord record(double shown, Moment at) const {
    notebook::ReadingRecord r;
    r.batch = batch_;
    r.instrument = stem_;
    r.indication = shown;
    r.temperature_c = 20;
    r.made_at = r.noted_at = at;
    return r;
  }
  void read(double shown, const std::string& at, notebook::Stage stage = notebook::Stage::present) {
    notebook::ReadingRecord r = record(shown, moment_from_text(at));
    r.stage = stage;
    (void)book_.add(std::span{&r, 1});
  }
  [[nodiscard]] batch::Batch batch() const { return {book_, "PT-1"}; }

  notebook::Notebook book_;

 private:
  notebook::Id stem_ = 0, batch_ = 0;
};

// The curve is cut to what the readings decide.
TEST_F(Passings, TheCurveLiesWithinTheReadings) {
  const std::vector<double> shown{1.030, 1.0295, 1.029, 1.027, 1.024, 1.021, 1.018, 1.016, 1.015};
  for (std::size_t i = 0; i < shown.size(); ++i)
    read(shown[i], "2026-03-0" + std::to_string(i + 1) + "T18:00Z");
  batch::Batch b = batch();
  const History h = history_of(b, "");
  const Passing p = passing_of(b, h, 0.8);
  ASSERT_TRUE(p.above_from);
  EXPECT_EQ(p.side(), above);
  ASSERT_TRUE(p.by_curve.hi);
  EXPECT_LE(*p.by_curve.hi, day_of(h, h.points[*p.above_from].sample.at()));
  ASSERT_TRUE(p.below_until && p.by_curve.lo);
  EXPECT_GE(*p.by_curve.lo, day_of(h, h.points[*p.below_until].sample.at()));
}

// What is said to decide does decide, and a little less of it does not.
TEST_F(Passings, DecidingReadingsDecide) {
  read(1.0275, "2026-03-04T18:00Z");
  batch::Batch b = batch();
  const History h = history_of(b, "");
  constexpr double limit = 0.4;
  const Passing p = passing_of(b, h, limit);
  ASSERT_EQ(p.side(), open);
  const Deciding d = deciding_readings(b, h, p);
  ASSERT_TRUE(d.below && d.above);
  const auto side = [&](double indication) {
    notebook::ReadingRecord r = h.points.back().sample.first();
    r.indication = indication;
    r.degassed = true;
    const batch::Point point = b.preview({r});
    return analysis::decide_strength(*point.drink, limit).side;
  };
  constexpr double a_mark = 0.0002;  // more than what the search leaves
  EXPECT_EQ(side(*d.below), below);
  EXPECT_NE(side(*d.below - a_mark), below);
  EXPECT_EQ(side(*d.above), above);
  EXPECT_NE(side(*d.above + a_mark), above);
}

// Every quarter of an hour for four days: one point for six hours, and the last of each day.
TEST_F(Passings, AHistoryOfASensorKeepsFewPoints) {
  constexpr std::int64_t readings = 384, quarter_s = 900;
  const Moment first = moment_from_text("2026-03-02T00:00Z");
  std::vector<std::vector<notebook::ReadingRecord>> samples;
  samples.reserve(readings);
  for (std::int64_t i = 0; i < readings; ++i)
    // The first of each six hours is a slip.
    samples.push_back({record(1.028 - 0.00002 * static_cast<double>(i) + (i % 24 == 16 ? 0.004 : 0),
                              {first.seconds + quarter_s * i, 0})});
  (void)book_.add_samples(samples);
  batch::Batch b = batch();
  const History h = history_of(b, "");
  EXPECT_EQ(h.readings, 385U);
  EXPECT_EQ(h.series.size(), 18U);  // quarters of a day that begin at the hour of the original
  // Corrected by less than a thousandth: so slips are told from the others.
  for (std::size_t i = 1; i < h.series.size(); ++i) EXPECT_LT(h.series.gravity[i], 1.029) << i;
  EXPECT_EQ(h.shown.size(), 5U);
  EXPECT_LE(h.points.size(), 23U);
  EXPECT_EQ(h.points[h.shown.back()].sample.at().text(), "2026-03-05T23:45:00+00:00");
  EXPECT_EQ(h.state.phase, Phase::falling);
  const History whole = history_of(b, "", Shown::all);
  EXPECT_EQ(whole.points.size(), 385U);
  EXPECT_EQ(whole.shown.size(), 385U);
  EXPECT_EQ(whole.series.gravity, h.series.gravity);
  EXPECT_EQ(whole.series.days, h.series.days);
}

}  // namespace
}  // namespace areo::trend
