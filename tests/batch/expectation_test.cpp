// SPDX-License-Identifier: GPL-3.0-or-later
// What the notebook asks about before it notes something, and what it lets pass.
#include "areo/batch/expectation.hpp"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <variant>

#include "areo/notebook/recompute.hpp"
#include "notebook/temporary.hpp"

namespace areo::batch {
namespace {

using notebook::AdditionRecord;
using notebook::Id;
using notebook::ReadingRecord;
using notebook::Stage;
using notebook::Substance;

class Expected : public notebook::TemporaryFolder {
 protected:
  Expected() : book_{path(), notebook::Open::create} {
    notebook::InstrumentRecord stem = notebook::hydrometer("stem-1");
    auto& h = std::get<instruments::Hydrometer>(stem.instrument);
    h.lo = 0.970;  // long enough for every slip
    h.hi = 1.170;
    stem_ = book_.add(stem);
    prism_ = book_.add(notebook::refractometer("prism-1"));
    notebook::BatchRecord b;
    b.name = "PT-1";
    b.volume_typed = "4L";
    b.volume_l = 4;
    b.started_at = moment_from_text("2026-05-01T08:00Z");
    batch_ = book_.add(b);
  }
  // `at` of May 2026: "24T10:30"
  ReadingRecord record(double shown, const std::string& at, Stage stage = Stage::present) const {
    ReadingRecord r;
    r.batch = batch_;
    r.instrument = stem_;
    r.typed = fmt::format("{}", shown);
    r.indication = shown;
    r.stage = stage;
    r.temperature_c = 20;
    r.made_at = moment_from_text("2026-05-" + at + "Z");
    r.noted_at = moment_from_text("2026-06-01T12:00Z");
    return r;
  }
  ReadingRecord brix(double shown, const std::string& at, Stage stage = Stage::present) const {
    ReadingRecord r = record(shown, at, stage);
    r.instrument = prism_;
    return r;
  }
  void note(const ReadingRecord& r) { book_.add(std::span{&r, 1}); }
  void original(double shown, const std::string& at = "02T10:00") {
    note(record(shown, at, Stage::original));
  }
  void present(double shown, const std::string& at) { note(record(shown, at)); }
  Doubts of(const ReadingRecord& r, std::optional<Id> without = std::nullopt) {
    Batch b{book_, "PT-1"};
    return Expectation{b, without}.of({r});
  }
  AdditionRecord sugar(double mass_g, const std::string& at = "04T10:00") const {
    AdditionRecord a;
    a.batch = batch_;
    a.mass_g = mass_g;
    a.amount_typed = std::to_string(mass_g) + "g";
    a.made_at = a.noted_at = moment_from_text("2026-05-" + at + "Z");
    return a;
  }
  Doubts of(const AdditionRecord& a) {
    Batch b{book_, "PT-1"};
    return doubts(b, a);
  }
  // One doubt, and what it says.
  static void expect_one(const Doubts& doubts, const char* says) {
    ASSERT_EQ(doubts.size(), 1U) << says << (doubts.empty() ? "" : ": " + doubts.back());
    EXPECT_NE(doubts[0].find(says), std::string::npos) << doubts[0];
  }

  notebook::Notebook book_;
  Id stem_ = 0, prism_ = 0, batch_ = 0;
};

TEST_F(Expected, WhatFermentsDoPasses) {
  original(1.060);
  // Two vigorous days, bubbles of three divisions, a slow week.
  for (const auto& [shown, at] : {std::pair{1.060, "02T18:00"},
                                  {1.032, "03T18:00"},
                                  {1.012, "04T18:00"},
                                  {1.018, "05T18:00"},
                                  {1.011, "06T18:00"},
                                  {1.008, "14T18:00"},
                                  {0.995, "20T18:00"}}) {
    const ReadingRecord r = record(shown, at);
    const Doubts doubts = of(r);
    EXPECT_TRUE(doubts.empty()) << shown << ": " << (doubts.empty() ? "" : doubts[0]);
    note(r);
  }
}

TEST_F(Expected, AFallThatNoFermentMakes) {
  original(1.022);
  present(1.018, "24T10:00");
  expect_one(of(record(1.0018, "24T10:30")), "0.0162 in gravity below 1.018");
  expect_one(of(record(1.0018, "24T10:30")),
             "30 minutes earlier: no ferment falls so fast; was it "
             "1.018?");
  EXPECT_TRUE(of(record(1.0018, "24T21:00")).empty());  // eleven hours are enough for it
}

TEST_F(Expected, ARiseThatBubblesDoNotMake) {
  original(1.022);
  present(1.018, "06T10:00");
  expect_one(of(record(1.15, "09T10:00")), "was it 1.015?");
  expect_one(of(record(1.038, "09T10:00")), "0.0200 in gravity above");
  EXPECT_TRUE(of(record(1.025, "09T10:00")).empty());
  // A reading of the past is held against what came after it.
  expect_one(of(record(1.004, "05T10:00")), "0.0140 in gravity below 1.018");
}

TEST_F(Expected, ARiseBySugarThatWasAdded) {
  original(1.022);
  present(1.018, "06T10:00");
  const ReadingRecord sweeter = record(1.036, "07T10:00");
  EXPECT_EQ(of(sweeter).size(), 1U);
  book_.add(sugar(200, "06T12:00"));  // 50 g/L raise it by 0.019
  EXPECT_TRUE(of(sweeter).empty());
  EXPECT_EQ(of(record(1.052, "07T10:00")).size(), 1U);
}

TEST_F(Expected, LowerThanAllOfItFermented) {
  original(1.022);
  expect_one(of(record(0.981, "28T10:00")), "lower than 0.99");
  EXPECT_TRUE(of(record(0.995, "28T10:00")).empty());
}

TEST_F(Expected, AnOriginalWithASlippedDigit) {
  expect_one(of(record(1.0018, "02T10:00", Stage::original)), "was it 1.018?");
  ReadingRecord coarse = record(1.15, "02T10:00", Stage::original);
  EXPECT_TRUE(of(coarse).empty());  // typed 1.150, a strong mead
  coarse.half_width = 0.005;
  expect_one(of(coarse), "was it 1.015?");
}

TEST_F(Expected, TheSameReadingTwice) {
  original(1.022);
  present(1.018, "06T10:00");
  expect_one(of(record(1.018, "06T10:00")), "typed twice?");
  EXPECT_TRUE(of(record(1.017, "06T10:00")).empty());
  EXPECT_TRUE(of(record(1.018, "06T10:05")).empty());  // a sensor's next line
  ReadingRecord live = record(1.017, "07T10:00");
  live.noted_at = live.made_at;
  note(live);
  live.made_at = live.noted_at = moment_from_text("2026-05-07T10:09Z");
  expect_one(of(live), "typed twice?");
  live.person = "somebody else";
  EXPECT_TRUE(of(live).empty());
}

TEST_F(Expected, AnOriginalAfterTheFerment) {
  present(1.018, "06T10:00");
  expect_one(of(record(1.022, "08T10:00", Stage::original)), "read while it fermented");
  EXPECT_TRUE(of(record(1.022, "05T10:00", Stage::original)).empty());
  book_.add(sugar(50, "07T10:00"));
  EXPECT_TRUE(of(record(1.022, "08T10:00", Stage::original)).empty());
}

TEST_F(Expected, AReadingBeforeTheOriginal) {
  original(1.022, "05T10:00");
  expect_one(of(record(1.021, "04T10:00")), "before the original");
  EXPECT_TRUE(of(record(1.021, "05T10:00")).empty());
}

TEST_F(Expected, BeforeTheBatchBegan) {
  ReadingRecord early = record(1.022, "01T06:00", Stage::original);
  EXPECT_TRUE(of(early).empty());  // on the day itself
  early.made_at = moment_from_text("2026-04-28T10:00Z");
  expect_one(of(early), "before PT-1 began, 2026-05-01");
  note(early);  // insisted: it began earlier
  ReadingRecord next = record(1.021, "01T06:00");
  next.made_at = moment_from_text("2026-04-29T10:00Z");
  EXPECT_TRUE(of(next).empty());
}

TEST_F(Expected, ARefractometerIsHeldAgainstItsOwn) {
  note(brix(12, "02T10:00", Stage::original));
  note(brix(6.4, "12T10:00"));
  EXPECT_TRUE(of(record(1.004, "12T10:10")).empty());  // alcohol refracts, and 6.4 Bx are 1.025
  EXPECT_TRUE(of(brix(6.2, "13T10:00")).empty());
  EXPECT_EQ(of(brix(9.6, "13T10:00")).size(), 1U);
}

TEST_F(Expected, AnAmendedReadingCountsNoMore) {
  original(1.022);
  present(1.0018, "06T10:00");
  const Id slip = 2;
  EXPECT_EQ(of(record(1.018, "06T10:00")).size(), 1U);
  EXPECT_TRUE(of(record(1.018, "06T10:00"), slip).empty());
}

TEST_F(Expected, OneSlipOfATableThrowsNoDoubtOnTheOthers) {
  const std::vector<std::vector<ReadingRecord>> table{
      {record(1.014, "10T10:00")},  // in any order
      {record(1.022, "03T10:00", Stage::original)},
      {record(1.15, "09T10:00")},
      {record(1.018, "06T10:00")},
      {record(1.018, "06T10:00")},
  };
  const auto all = Incoming{book_}.doubts(table);
  ASSERT_EQ(all.size(), table.size());
  EXPECT_TRUE(all[0].empty() && all[1].empty() && all[3].empty());
  expect_one(all[2], "was it 1.015?");
  expect_one(all[4], "typed twice?");
}

TEST_F(Expected, AdditionsThatTheVolumeTakes) {
  EXPECT_TRUE(of(sugar(400)).empty());
  expect_one(of(sugar(4000)), "1000 g to a litre");
  AdditionRecord water = sugar(1);
  water.what = Substance::water;
  water.mass_g.reset();
  water.volume_l = 1;
  EXPECT_TRUE(of(water).empty());
  water.volume_l = 40;
  expect_one(of(water), "more than 2 times what was there");
  AdditionRecord into = sugar(4);
  into.into_l = 40;
  into.into_typed = "40L";
  expect_one(of(into), "where PT-1 holds 4L");
  AdditionRecord early = sugar(100);
  early.made_at = moment_from_text("2026-04-28T10:00Z");
  expect_one(of(early), "before PT-1 began");
  book_.add(sugar(100));
  expect_one(of(sugar(100)), "typed twice?");
}

TEST(ExpectedBatch, AVolumeAndAnAgeThatKitchensHave) {
  const Moment now = moment_from_text("2026-11-27T10:00Z");
  notebook::BatchRecord b;
  b.started_at = now;
  for (const auto& [litres, doubts_of_it] :
       {std::pair{5.0, 0U}, {0.75, 0U}, {1000.0, 0U}, {5000.0, 1U}, {0.005, 1U}}) {
    b.volume_l = litres;
    EXPECT_EQ(doubts(b, now).size(), doubts_of_it) << litres;
  }
  b.volume_l.reset();
  b.started_at = moment_from_text("2016-11-27T10:00Z");
  EXPECT_EQ(doubts(b, now).size(), 1U);
}

TEST_F(Expected, ChecksThatTheInstrumentCanShow) {
  const auto instrument = book_.instrument("stem-1");
  notebook::CheckRecord r;
  r.instrument = stem_;
  r.made_at = moment_from_text("2026-05-02T10:00Z");
  r.temperature_c = 20;
  r.reading = 1.002;
  r.reading_typed = "1.002";
  const auto about = [&](const std::vector<notebook::CheckRecord>& others = {}) {
    const auto c = notebook::evaluate(book_, instrument, std::span{&r, 1}).checks.front();
    return doubts(instrument, r, c, others);
  };
  EXPECT_TRUE(about().empty());
  const notebook::CheckRecord there = r;
  expect_one(about({there}), "typed twice?");
  r.reading = 1.020;
  expect_one(about(), "off, 10 divisions");
  r.method = notebook::CheckMethod::sugar;
  r.reading = instrument.graduation().hi;
  r.solution = calibration::sugar_solution(500, 450);
  expect_one(about(), "and its scale goes from");
  r.solution = calibration::sugar_solution(50, 450);
  r.reading = 1.040;
  EXPECT_TRUE(about().empty());
}

}  // namespace
}  // namespace areo::batch
