// SPDX-License-Identifier: GPL-3.0-or-later
// Readings of a batch: kept, repeated, amended, excluded.
#include <gtest/gtest.h>

#include <limits>

#include "batches.hpp"

namespace areo::notebook {
namespace {

TEST_F(Batches, KeepEveryFieldOfAReading) {
  ReadingRecord in = reading(pt1_, stem_, 1.0 / 3, "2026-03-02T10:15:00+01:00");
  in.bottle = "B";
  in.stage = Stage::original;
  in.noted_at = day("2026-03-02T11:00:00+01:00");
  in.typed = "0,333";
  in.half_width = (0.1 + 0.2) / 10;  // not the nearest double to 0.03
  in.temperature_half_width_c = 0.25;
  in.thermometer = stem_;  // any instrument: the store knows no kinds
  in.meniscus = instruments::Meniscus::top;
  in.degassed = false;
  in.person = "the one with the hat";
  in.note = "=cmd|'; DROP TABLE reading; --\x1b[31m";
  const Id id = book_.add(std::span{&in, 1}).front();
  const auto all = Notebook{path()}.readings(pt1_);
  ASSERT_EQ(all.size(), 1u);
  const ReadingRecord& out = all[0];
  EXPECT_EQ(out.id, id);
  EXPECT_EQ(out.batch, pt1_);
  EXPECT_EQ(out.bottle, "B");
  EXPECT_EQ(out.sample, id);
  EXPECT_EQ(out.stage, Stage::original);
  EXPECT_EQ(out.made_at.text(), in.made_at.text());
  EXPECT_EQ(out.noted_at.text(), in.noted_at.text());
  EXPECT_EQ(out.instrument, stem_);
  EXPECT_EQ(out.typed, "0,333");
  EXPECT_EQ(out.indication, in.indication);
  EXPECT_EQ(out.half_width, in.half_width);
  EXPECT_EQ(out.temperature_typed, "21C");
  EXPECT_EQ(out.temperature_c, 21);
  EXPECT_EQ(out.temperature_half_width_c, 0.25);
  EXPECT_EQ(out.thermometer, stem_);
  EXPECT_EQ(out.meniscus, instruments::Meniscus::top);
  EXPECT_EQ(out.degassed, false);
  EXPECT_EQ(out.person, in.person);
  EXPECT_EQ(out.note, in.note);
  EXPECT_FALSE(out.amends || out.amended_by);
  EXPECT_TRUE(out.counts());
  EXPECT_EQ(book_.reading(id).note, in.note);
}

TEST_F(Batches, RepeatsAreOneSample) {
  std::vector<ReadingRecord> three;
  for (const double r : {1.048, 1.047, 1.048})
    three.push_back(reading(pt1_, stem_, r, "2026-03-02T10:15Z"));
  const auto ids = book_.add(three);
  ASSERT_EQ(ids.size(), 3u);
  for (const ReadingRecord& r : book_.readings(pt1_)) EXPECT_EQ(r.sample, ids[0]);
  const Id alone = note(1.020, "2026-03-05T10:15Z");
  EXPECT_EQ(book_.reading(alone).sample, alone);
  EXPECT_EQ(book_.repeats(stem_, ""), (std::vector<std::vector<double>>{{1.048, 1.047, 1.048}}));
  EXPECT_TRUE(book_.repeats(stem_, "somebody").empty());
  // One that is excluded is no repeat, and one left alone has no scatter.
  book_.exclude_reading(ids[1], exclusion(true, "bubble"));
  EXPECT_EQ(book_.repeats(stem_, ""), (std::vector<std::vector<double>>{{1.048, 1.048}}));
  book_.exclude_reading(ids[0], exclusion(true, "bubble"));
  EXPECT_TRUE(book_.repeats(stem_, "").empty());
}

TEST_F(Batches, ARefusedReadingLeavesNoneOfItsSample) {
  std::vector<ReadingRecord> two{reading(pt1_, stem_, 1.048, "2026-03-02T10:15Z"),
                                 reading(pt1_, stem_ + 9, 1.048, "2026-03-02T10:15Z")};
  EXPECT_NE(refusal([&] { book_.add(two); }), "accepted");
  two[1] = reading(pt1_, stem_, std::numeric_limits<double>::quiet_NaN(), "2026-03-02T10:15Z");
  EXPECT_NE(refusal([&] { book_.add(two); }), "accepted");
  EXPECT_TRUE(book_.readings(pt1_).empty());
}

TEST_F(Batches, AnAmendedReadingStaysAndTheNewOneCounts) {
  const Id wrong = note(1.084, "2026-03-05T10:00Z");
  const Id right = amend(wrong, 1.048, "2026-03-05T10:00Z");
  const auto all = book_.readings(pt1_);
  ASSERT_EQ(all.size(), 2u);
  EXPECT_EQ(all[0].amended_by, right);
  EXPECT_FALSE(all[0].counts());
  EXPECT_EQ(all[1].amends, wrong);
  EXPECT_EQ(all[1].reason, "slipped digit");
  EXPECT_TRUE(all[1].counts());
  EXPECT_EQ(book_.count_readings(pt1_).count, 1);
  expect_contains(refusal([&] { amend(wrong, 1.05, "2026-03-05T10:00Z"); }), "already | amend");
  expect_contains(refusal([&] { amend(right, 1.05, "2026-03-05T10:00Z", ""); }), "has a reason");
  expect_contains(refusal([&] { amend(999, 1.05, "2026-03-05T10:00Z"); }), "no reading 999");
  EXPECT_EQ(book_.readings(pt1_).size(), 2u);
}

TEST_F(Batches, AReadingOfAnotherBatchCannotBeAmended) {
  const Id other = book_.add(batch("PT-2"));
  const Id id = note(1.048, "2026-03-05T10:00Z");
  ReadingRecord r = reading(other, stem_, 1.05, "2026-03-05T10:00Z");
  r.amends = id;
  r.reason = "wrong jar";
  expect_contains(refusal([&] { book_.add(std::span{&r, 1}); }), "no reading");
}

TEST_F(Batches, AnExcludedReadingStaysWithItsReasonAndMayCountAgain) {
  const Id id = note(1.048, "2026-03-05T10:00Z");
  expect_contains(refusal([&] { book_.exclude_reading(id, exclusion(false, "x")); }),
                  "counts already");
  expect_contains(refusal([&] { book_.exclude_reading(id, exclusion(true, "")); }), "for a reason");
  expect_contains(refusal([&] { book_.exclude_reading(99, exclusion(true, "x")); }), "no reading");
  book_.exclude_reading(id, exclusion(true, "bubbles"));
  EXPECT_EQ(book_.reading(id).excluded(), "bubbles");
  EXPECT_FALSE(book_.reading(id).counts());
  EXPECT_EQ(book_.count_readings(pt1_).count, 0);
  EXPECT_FALSE(book_.count_readings(pt1_).last.has_value());
  expect_contains(refusal([&] { book_.exclude_reading(id, exclusion(true, "again")); }),
                  "excluded already: bubbles");
  book_.exclude_reading(id, exclusion(false, "none after all", "2026-03-10T10:00Z"));
  EXPECT_TRUE(book_.reading(id).counts());
  EXPECT_EQ(book_.reading(id).exclusions.size(), 2u);
  EXPECT_EQ(book_.count_readings(pt1_).last, day("2026-03-05T10:00Z"));
}

TEST_F(Batches, AreAsTheyStoodOnADay) {
  const Id wrong = note(1.084, "2026-03-05T10:00Z");
  const Id id = amend(wrong, 1.048, "2026-03-06T10:00Z");
  book_.exclude_reading(id, exclusion(true, "bubbles", "2026-03-07T10:00Z"));
  const auto first = book_.readings(pt1_, day("2026-03-05T12:00Z"));
  ASSERT_EQ(first.size(), 1u);
  EXPECT_TRUE(first[0].counts());
  EXPECT_EQ(book_.readings(pt1_, day("2026-03-06T12:00Z")).size(), 2u);
  EXPECT_EQ(book_.readings(pt1_, day("2026-03-06T12:00Z"))[1].excluded(), "");
  EXPECT_EQ(book_.readings(pt1_, day("2026-03-07T12:00Z"))[1].excluded(), "bubbles");
  EXPECT_TRUE(book_.readings(pt1_, day("2026-03-04T12:00Z")).empty());
}

TEST_F(Batches, ReadingsComeInOrderOfTheirTime) {
  note(1.020, "2026-03-09T10:00Z");
  note(1.048, "2026-03-02T12:00+03:00");  // 09:00Z
  note(1.047, "2026-03-02T09:30Z");
  std::vector<double> all;
  for (const ReadingRecord& r : book_.readings(pt1_)) all.push_back(r.indication);
  EXPECT_EQ(all, (std::vector<double>{1.048, 1.047, 1.020}));
}

}  // namespace
}  // namespace areo::notebook
