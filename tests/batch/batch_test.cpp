// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/batch/batch.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "areo/core/error.hpp"
#include "areo/physics/mixture.hpp"
#include "areo/physics/scale.hpp"
#include "areo/physics/surface.hpp"
#include "notebook/temporary.hpp"

namespace areo::batch {
namespace {

using notebook::AdditionRecord;
using notebook::Id;
using notebook::Notebook;
using notebook::ReadingRecord;
using notebook::Stage;
using notebook::Substance;

class Batches : public notebook::TemporaryFolder {
 protected:
  Batches() : book_{path(), notebook::Open::create} {
    stem_ = book_.add(notebook::hydrometer("stem-1"));
    prism_ = book_.add(notebook::refractometer("prism-1"));
    pt1_ = add_batch("PT-1");
  }
  Id add_batch(const std::string& name) {
    notebook::BatchRecord b;
    b.name = name;
    b.volume_l = 5;
    b.started_at = moment_from_text("2026-03-01");
    return book_.add(b);
  }
  ReadingRecord record(double shown, const std::string& at, Stage stage = Stage::present) const {
    ReadingRecord r;
    r.batch = pt1_;
    r.instrument = stem_;
    r.indication = shown;
    r.stage = stage;
    r.temperature_c = 20;
    r.made_at = r.noted_at = moment_from_text(at);
    return r;
  }
  Id note(const ReadingRecord& r) { return book_.add(std::span{&r, 1}).front(); }
  Id original(double shown, const std::string& at = "2026-03-01T10:00Z") {
    return note(record(shown, at, Stage::original));
  }
  Id present(double shown, const std::string& at) { return note(record(shown, at)); }
  AdditionRecord sugar(const std::string& at, double mass_g = 100) const {
    AdditionRecord a;
    a.batch = pt1_;
    a.made_at = a.noted_at = moment_from_text(at);
    a.mass_g = mass_g;
    return a;
  }
  Batch batch(Moment as_of = notebook::end_of_time) { return {book_, "PT-1", as_of}; }
  double value(const Point& p, std::string_view key) { return p.result().at(key).value.estimate; }

  Notebook book_;
  Id stem_ = 0, prism_ = 0, pt1_ = 0;
};

TEST_F(Batches, APointIsWhatAlcoholSaysOfTheTwoReadings) {
  original(1.048);
  present(1.012, "2026-03-08T10:00Z");
  Batch b = batch();
  const auto points = b.points();
  ASSERT_EQ(points.size(), 2u);
  EXPECT_FALSE(points[0].drink);
  EXPECT_EQ(points[0].gravity().key, "sg_20_20_original");
  ASSERT_TRUE(points[1].drink);
  const auto stem =
      measurement::Calibrated::never_checked(*book_.instrument("stem-1").hydrometer());
  instruments::HydrometerReading first, now;
  first.indication = 1.048;
  now.indication = 1.012;
  const auto expected = measurement::alcohol(stem, now, stem, first).result;
  for (const auto& q : expected.quantities) {
    EXPECT_EQ(value(points[1], q.key), q.value.estimate) << q.key;
    EXPECT_EQ(points[1].result().at(q.key).value.u, q.value.u) << q.key;
  }
}

// By how much a drink of 3.8 % by mass reads high on the usual stem: 60.2 mN/m against 72.7.
constexpr double of_surface = 0.00087;

TEST_F(Batches, RepeatsAreOnePointWithTheirMean) {
  original(1.048);
  std::vector<ReadingRecord> three;
  for (const double r : {1.012, 1.013, 1.013}) three.push_back(record(r, "2026-03-08T10:00Z"));
  book_.add(three);
  Batch b = batch();
  ASSERT_EQ(b.samples().size(), 2u);
  const Point p = b.point(b.samples()[1]);
  EXPECT_EQ(p.sample.readings.size(), 3u);
  EXPECT_NEAR(p.gravity().value.estimate, 3.038 / 3 - of_surface, 1e-4);
  present(1.013, "2026-03-09T10:00Z");
  Batch again = batch();
  EXPECT_LT(p.gravity().value.u, again.point(again.samples()[2]).gravity().value.u);
}

TEST_F(Batches, WhatDoesNotCountIsNoPoint) {
  original(1.048);
  const Id wrong = present(1.021, "2026-03-05T10:00Z");
  ReadingRecord right = record(1.012, "2026-03-05T10:00Z");
  right.amends = wrong;
  right.reason = "swapped digits";
  note(right);
  const Id bubbles = present(1.030, "2026-03-06T10:00Z");
  book_.exclude_reading(bubbles, {moment_from_text("2026-03-07"), true, "bubbles"});
  const auto points = batch().points();
  ASSERT_EQ(points.size(), 2u);
  EXPECT_NEAR(points[1].gravity().value.estimate, 1.012 - of_surface, 1e-4);
  EXPECT_EQ(batch().readings().size(), 4u);
  // On the day before it was excluded it counted.
  EXPECT_EQ(batch(moment_from_text("2026-03-06T12:00Z")).points().size(), 3u);
}

TEST_F(Batches, AReadingUsesTheCalibrationInForceThen) {
  original(1.048);
  present(1.012, "2026-03-05T10:00Z");
  present(1.012, "2026-03-15T10:00Z");
  const Id check = book_.add(notebook::water_check(stem_, 1.002, "2026-03-10T10:00Z"));
  notebook::CalibrationRecord c = notebook::calibration(stem_, {check}, "2026-03-10T10:00Z");
  c.from_stated = true;
  book_.add(c);
  const auto points = batch().points();
  EXPECT_NEAR(points[1].gravity().value.estimate, 1.012 - of_surface, 1e-4);
  EXPECT_NEAR(points[2].gravity().value.estimate, 1.0098 - of_surface, 1e-4);
}

TEST_F(Batches, SugarRaisesTheOriginalFromItsDayOn) {
  original(1.048);
  present(1.030, "2026-03-05T10:00Z");
  // What the sugar makes of the drink, by hand: 5 L weighed 5 rho before carbon dioxide and yeast
  // left, and 0.998 of the sugar is sucrose.
  const Point before = batch().points()[1];
  const double a = value(before, "alcohol_percent_mass") / 100;
  const double e = value(before, "real_extract_percent") / 100;
  const double start =
      5 * physics::density({ExtractFraction{value(before, "original_extract_percent") / 100}},
                           celsius_point(20))
              .value();
  const double drink = start / (1 + 1.0665 * a);
  const physics::Liquid after{ExtractFraction{(drink * e + 99.8) / (drink + 100)},
                              EthanolFraction{drink * a / (drink + 100)}};
  // The surface of the drink lets the float stand higher: stems of 5 mm and 25 g, made for water.
  const double pull = instruments::surface_factor(
      metres(0.005), grams(25), physics::surface_tension(after.ethanol, celsius_point(20)),
      physics::water_surface_tension(celsius_point(20)));
  const double shown = physics::mark_from_liquid(physics::sg_20_20, after) / pull;
  book_.add(sugar("2026-03-06T10:00Z"));
  present(shown, "2026-03-06T12:00Z");
  const auto points = batch().points();
  EXPECT_NEAR(value(points[1], "sg_20_20_original"), 1.048, 1e-6);
  // 100 g in 5.24 kg of 11.92 %: (624.7 + 99.8) / 5340 = 13.57 %.
  EXPECT_NEAR(value(points[2], "original_extract_percent"), 13.57, 0.02);
  // The alcohol was made before: the sugar only dilutes it. The sucrose in the sugar is taken as
  // 0.9980 here, which is off by 0.0001 at most.
  EXPECT_NEAR(value(points[2], "alcohol_percent_mass"), 100 * after.ethanol.value(), 1e-3);
  Batch b = batch();
  EXPECT_TRUE(b.added_between(b.samples()[1], b.samples()[2]));
  EXPECT_FALSE(b.added_between(b.samples()[0], b.samples()[1]));
}

TEST_F(Batches, AnExcludedAdditionChangesNothing) {
  original(1.048);
  const Id a = book_.add(sugar("2026-03-06T10:00Z"));
  present(1.034, "2026-03-06T12:00Z");
  book_.exclude_addition(a, {moment_from_text("2026-03-07"), true, "other jar"});
  EXPECT_NEAR(value(batch().points()[1], "sg_20_20_original"), 1.048, 1e-6);
}

TEST_F(Batches, AnOriginalReadAfterAnAdditionHasItInIt) {
  original(1.048);
  book_.add(sugar("2026-03-01T11:00Z"));
  original(1.055, "2026-03-01T12:00Z");
  present(1.030, "2026-03-05T10:00Z");
  Batch b = batch();
  const auto o = b.original("", moment_from_text("2026-03-05"));
  EXPECT_EQ(o.readings.size(), 1u);
  EXPECT_TRUE(o.additions.empty());
  EXPECT_NEAR(value(b.points()[2], "sg_20_20_original"), 1.055, 1e-6);
}

TEST_F(Batches, OfOneMomentCountsWhatWasNotedFirst) {
  AdditionRecord a = sugar("2026-03-01T10:00Z");
  a.noted_at = moment_from_text("2026-03-01T10:05Z");
  book_.add(a);
  ReadingRecord before = record(1.048, "2026-03-01T10:00Z", Stage::original);
  before.noted_at = moment_from_text("2026-03-01T10:01Z");
  note(before);
  EXPECT_EQ(batch().original("", moment_from_text("2026-03-02")).additions.size(), 1u);
  ReadingRecord after = record(1.055, "2026-03-01T10:00Z", Stage::original);
  after.noted_at = moment_from_text("2026-03-01T10:06Z");
  note(after);
  const auto o = batch().original("", moment_from_text("2026-03-02"));
  EXPECT_TRUE(o.additions.empty());
  EXPECT_EQ(o.readings.size(), 1u);
}

TEST_F(Batches, BottlesHaveTheOriginalOfTheBatchAndTheirOwnAdditions) {
  original(1.048);
  AdditionRecord priming = sugar("2026-03-10T10:00Z", 5);
  priming.bottle = "B";
  priming.into_l = 0.5;
  book_.add(priming);
  for (const char* bottle : {"A", "B"}) {
    ReadingRecord r = record(1.010, "2026-03-12T10:00Z");
    r.bottle = bottle;
    note(r);
  }
  const auto points = batch().points();
  ASSERT_EQ(points.size(), 3u);
  EXPECT_NEAR(value(points[1], "sg_20_20_original"), 1.048, 1e-6);
  EXPECT_GT(value(points[2], "sg_20_20_original"), 1.050);
  EXPECT_EQ(batch().bottles(), (std::vector<std::string>{"", "A", "B"}));
}

TEST_F(Batches, APartOfAnotherBatchBringsItsOriginal) {
  original(1.048);
  const Id pt2 = add_batch("PT-2");
  ReadingRecord other = record(1.083, "2026-03-01T10:00Z", Stage::original);
  other.batch = pt2;
  note(other);
  AdditionRecord part = sugar("2026-03-06T10:00Z");
  part.what = Substance::batch;
  part.mass_g.reset();
  part.volume_l = 5;
  part.other = pt2;
  book_.add(part);
  // Half and half: between the two originals, nearer to the middle by mass.
  const auto o = batch().original("", moment_from_text("2026-03-07"));
  const double og = original_gravity(o).at("sg_20_20_original").value.estimate;
  EXPECT_NEAR(og, 1.0655, 0.001);
  // What both gave each other at one moment comes to an end.
  AdditionRecord back = part;
  back.batch = pt2;
  back.other = pt1_;
  book_.add(back);
  EXPECT_NEAR(original_gravity(batch().original("", moment_from_text("2026-03-07")))
                  .at("sg_20_20_original")
                  .value.estimate,
              og, 1e-9);
}

TEST_F(Batches, ABatchWithoutAnOriginalCannotBeAPart) {
  original(1.048);
  AdditionRecord part = sugar("2026-03-06T10:00Z");
  part.what = Substance::batch;
  part.other = add_batch("PT-2");
  book_.add(part);
  present(1.030, "2026-03-07T10:00Z");
  const auto points = batch().points();
  EXPECT_TRUE(points[0].computed());
  EXPECT_NE(points[1].refused.find("PT-2 has no original gravity"), std::string::npos)
      << points[1].refused;
}

TEST_F(Batches, WithoutAnOriginalAHydrometerShowsItsGravityOnly) {
  present(1.030, "2026-03-05T10:00Z");
  ReadingRecord drop = record(8, "2026-03-05T10:00Z");
  drop.instrument = prism_;
  note(drop);
  const auto points = batch().points();
  EXPECT_FALSE(points[0].drink);
  EXPECT_EQ(points[0].gravity().key, "sg_20_20");
  EXPECT_NEAR(points[0].gravity().value.estimate, 1.030, 1e-6);
  EXPECT_NE(points[1].refused.find("refractometer alone"), std::string::npos);
}

TEST_F(Batches, ARefractometerReadsAFermentToo) {
  ReadingRecord first = record(12, "2026-03-01T10:00Z", Stage::original);
  first.instrument = prism_;
  note(first);
  ReadingRecord drop = record(8, "2026-03-05T10:00Z");
  drop.instrument = prism_;
  note(drop);
  present(1.020, "2026-03-05T10:00Z");  // a hydrometer against the refractometer's original
  const auto points = batch().points();
  ASSERT_EQ(points.size(), 3u);
  for (const Point& p : points) EXPECT_TRUE(p.computed()) << p.refused;
  EXPECT_NEAR(value(points[1], "alcohol_percent_vol"), value(points[2], "alcohol_percent_vol"), 1);
}

TEST_F(Batches, ABadReadingStopsNoOther) {
  original(1.048);
  present(1.200, "2026-03-05T10:00Z");  // not on the scale
  present(1.020, "2026-03-06T10:00Z");
  const auto points = batch().points();
  EXPECT_FALSE(points[1].computed());
  EXPECT_TRUE(points[2].computed());
  EXPECT_THROW((void)points[1].gravity(), Error);
}

TEST_F(Batches, AChangeForgetsWhatBothReadingsShare) {
  original(1.048);
  present(1.030, "2026-03-05T10:00Z");
  present(1.026, "2026-03-06T10:00Z");
  Batch b = batch();
  const auto points = b.points();
  const auto d = change(points[1], points[2]);
  EXPECT_NEAR(d.estimate, -0.004, 1.5e-4);      // the stronger drink pulls less
  EXPECT_LT(d.u, points[1].gravity().value.u);  // the scale's own error is larger than the eye's
  EXPECT_GT(d.u, 0.0005);
  EXPECT_EQ(b.before(b.samples()[2]), &b.samples()[1]);
  EXPECT_EQ(b.before(b.samples()[1]), nullptr);  // the original is of another stage
}

TEST_F(Batches, TwoReadingsThatShowTheSameAreStillTwo) {
  present(1.030, "2026-03-05T10:00Z");
  present(1.030, "2026-03-06T10:00Z");
  const auto points = batch().points();
  EXPECT_GT(change(points[0], points[1]).u, 0.0005);
}

TEST_F(Batches, ThePooledScatterOfAPersonServesTheirSingleReadings) {
  original(1.048);
  // Four samples of three: 8 degrees of freedom, s = 0.0002.
  for (int i = 0; i < 4; ++i) {
    std::vector<ReadingRecord> three;
    for (const double off : {-0.0002, 0.0, 0.0002})
      three.push_back(record(1.040 + off, "2026-03-02T1" + std::to_string(i) + ":00Z"));
    for (ReadingRecord& r : three) r.person = "steady";
    book_.add(three);
  }
  ReadingRecord single = record(1.030, "2026-03-05T10:00Z");
  note(single);
  single.person = "steady";
  note(single);
  Batch b = batch();
  const auto points = b.points();
  EXPECT_LT(points[6].gravity().value.u, points[5].gravity().value.u);
  EXPECT_EQ(b.shelf().repeatability(stem_, "steady").degrees_of_freedom, 8);
  EXPECT_NEAR(b.shelf().repeatability(stem_, "steady").s, 0.0002, 1e-9);
  EXPECT_EQ(b.shelf().repeatability(stem_, "").degrees_of_freedom, 0);
}

TEST_F(Batches, APreviewIsWhatWillBeNoted) {
  original(1.048);
  Batch b = batch();
  const ReadingRecord r = record(1.012, "2026-03-08T10:00Z");
  const Point before = b.preview({r});
  note(r);
  const auto points = batch().points();
  EXPECT_EQ(before.gravity().value.estimate, points[1].gravity().value.estimate);
  EXPECT_EQ(before.gravity().value.u, points[1].gravity().value.u);
}

// Of more than sixty: the original, and of each bottle the last of each day.
TEST_F(Batches, AListOfManyShowsTheLastOfEachDayOfEachBottle) {
  original(1.050);
  const auto listed_of = [](const Batch& b) {
    std::vector<const Sample*> all;
    for (const Sample& s : b.samples()) all.push_back(&s);
    std::vector<std::string> when;
    for (const std::size_t i : listed(all))
      when.push_back(all[i]->bottle() + all[i]->at().text().substr(5, 11));
    return when;
  };
  for (int hour = 0; hour < 29; ++hour)
    for (const char* bottle : {"A", "B"}) {
      ReadingRecord r = record(1.040, "2026-03-02T00:00Z");
      r.made_at.seconds += 3600 * hour + (bottle[0] == 'A' ? 0 : 60);
      r.bottle = bottle;
      note(r);
    }
  EXPECT_EQ(listed_of(batch()).size(), 59U);
  for (int minute = 0; minute < 2; ++minute)
    present(1.040, "2026-03-05T10:0" + std::to_string(minute) + "Z");
  EXPECT_EQ(listed_of(batch()),
            (std::vector<std::string>{"03-01T10:00", "A03-02T23:00", "B03-02T23:01", "A03-03T04:00",
                                      "B03-03T04:01", "03-05T10:01"}));
}

}  // namespace
}  // namespace areo::batch
