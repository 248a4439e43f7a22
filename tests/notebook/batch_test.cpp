// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/notebook/batch.hpp"

#include <gtest/gtest.h>

#include "batches.hpp"
#include "notebook/sqlite.hpp"

namespace areo::notebook {
namespace {

TEST_F(Batches, KeepEveryField) {
  const BatchRecord in = batch("PT-2");
  const Id id = book_.add(in);
  const BatchRecord out = Notebook{path()}.batch("PT-2");
  EXPECT_EQ(out.id, id);
  EXPECT_EQ(out.name, "PT-2");
  EXPECT_EQ(out.drink, in.drink);
  EXPECT_EQ(out.culture, in.culture);
  EXPECT_EQ(out.vessel, in.vessel);
  EXPECT_EQ(out.volume_typed, "5L");
  EXPECT_EQ(out.volume_l, 5);
  EXPECT_EQ(out.extract, "invert");
  EXPECT_EQ(out.liquid, "");
  EXPECT_EQ(out.started_at.text(), "2026-03-02T10:00:00+01:00");
  EXPECT_EQ(out.note, "first one");
  EXPECT_EQ(book_.batch(id).name, "PT-2");
  ASSERT_EQ(book_.batches().size(), 2u);
  EXPECT_EQ(book_.batches()[0].name, "PT-1");
}

TEST_F(Batches, RefuseANameThatIsTakenAndSuggestTheNearest) {
  expect_contains(refusal([&] { book_.add(batch("PT-1")); }), "there is a batch 'PT-1' already");
  expect_contains(refusal([&] { (void)book_.batch("PT1"); }), "did you mean 'PT-1'?");
  EXPECT_NE(refusal([&] { book_.add(batch("")); }), "accepted");
  EXPECT_EQ(book_.batches().size(), 1u);
}

TEST_F(Batches, AnAmendmentCountsFromItsDayAndTheOldValueStays) {
  book_.amend({pt1_, day("2026-03-05T10:00Z"), "volume", "4.6L", 4.6, "lost some"});
  book_.amend({pt1_, day("2026-03-06T10:00Z"), "culture", "yeast", {}, "mistyped"});
  EXPECT_EQ(book_.batch("PT-1").volume_l, 4.6);
  EXPECT_EQ(book_.batch("PT-1").culture, ferment::Culture::yeast);
  EXPECT_EQ(book_.batches()[0].culture, ferment::Culture::yeast);
  const BatchRecord then = book_.batch("PT-1", day("2026-03-05T12:00Z"));
  EXPECT_EQ(then.volume_l, 4.6);
  EXPECT_EQ(then.culture, ferment::Culture::mixed);
  EXPECT_EQ(book_.batch("PT-1", day("2026-03-04T10:00Z")).volume_typed, "5L");
  const auto all = book_.amendments(pt1_);
  ASSERT_EQ(all.size(), 2u);
  EXPECT_EQ(all[0].field, "volume");
  EXPECT_EQ(all[0].reason, "lost some");
}

TEST_F(Batches, RefuseAnAmendmentOfNothingOrWithoutAReason) {
  expect_contains(refusal([&] {
                    book_.amend({pt1_, day("2026-03-05"), "name", "PT-9", {}, "why"});
                  }),
                  "no field 'name'");
  expect_contains(refusal([&] {
                    book_.amend({pt1_, day("2026-03-05"), "culture", "wine", {}, "why"});
                  }),
                  "unknown word 'wine'");
  expect_contains(refusal([&] {
                    book_.amend({pt1_, day("2026-03-05"), "note", "x", {}, ""});
                  }),
                  "has a reason");
  EXPECT_TRUE(book_.amendments(pt1_).empty());
}

TEST_F(Batches, CloseAndReopenInTurn) {
  EXPECT_TRUE(book_.events(pt1_).empty());
  expect_contains(refusal([&] {
                    book_.note(pt1_, {day("2026-03-20"), false, ""});
                  }),
                  "open already");
  book_.note(pt1_, {day("2026-03-20"), true, "drunk"});
  expect_contains(refusal([&] {
                    book_.note(pt1_, {day("2026-03-21"), true, ""});
                  }),
                  "closed already");
  book_.note(pt1_, {day("2026-03-22"), false, "one bottle left"});
  const auto events = book_.events(pt1_);
  ASSERT_EQ(events.size(), 2u);
  EXPECT_TRUE(events[0].closed);
  EXPECT_EQ(events[0].note, "drunk");
  EXPECT_FALSE(events[1].closed);
}

TEST_F(Batches, KeepEveryFieldOfAnAddition) {
  const Id other = book_.add(batch("PT-2"));
  AdditionRecord juice;
  juice.batch = pt1_;
  juice.bottle = "B";
  juice.what = Substance::juice;
  juice.made_at = day("2026-03-04T10:00:00+01:00");
  juice.noted_at = day("2026-03-04T11:00:00+01:00");
  juice.amount_typed = "0.5L";
  juice.volume_l = 0.5;
  juice.extract_typed = "12.5Bx";
  juice.extract_percent = 12.5;
  juice.extract_half_width = 0.05;
  juice.into_typed = "4.6L";
  juice.into_l = 4.6;
  juice.person = "somebody";
  juice.note = "pear";
  juice.id = book_.add(juice);
  AdditionRecord part;
  part.batch = pt1_;
  part.what = Substance::batch;
  part.made_at = part.noted_at = day("2026-03-03T10:00Z");
  part.amount_typed = "200g";
  part.mass_g = 200;
  part.other = other;
  part.id = book_.add(part);
  const auto all = Notebook{path()}.additions(pt1_);
  ASSERT_EQ(all.size(), 2u);
  EXPECT_EQ(all[0].id, part.id);
  EXPECT_EQ(all[0].other, other);
  EXPECT_EQ(all[0].mass_g, 200);
  EXPECT_FALSE(all[0].volume_l || all[0].extract_percent || all[0].into_l);
  EXPECT_EQ(all[1].what, Substance::juice);
  EXPECT_EQ(all[1].bottle, "B");
  EXPECT_EQ(all[1].made_at.text(), juice.made_at.text());
  EXPECT_EQ(all[1].noted_at.text(), juice.noted_at.text());
  EXPECT_EQ(all[1].amount_typed, "0.5L");
  EXPECT_EQ(all[1].volume_l, 0.5);
  EXPECT_EQ(all[1].extract_typed, "12.5Bx");
  EXPECT_EQ(all[1].extract_percent, 12.5);
  EXPECT_EQ(all[1].extract_half_width, 0.05);
  EXPECT_EQ(all[1].into_typed, "4.6L");
  EXPECT_EQ(all[1].into_l, 4.6);
  EXPECT_EQ(all[1].person, "somebody");
  EXPECT_EQ(all[1].note, "pear");
}

TEST_F(Batches, RefuseAnAdditionThatIsIncomplete) {
  AdditionRecord a;
  a.batch = pt1_;
  a.made_at = a.noted_at = day("2026-03-04");
  EXPECT_NE(refusal([&] { book_.add(a); }), "accepted");  // no amount
  a.mass_g = a.volume_l = 1;
  EXPECT_NE(refusal([&] { book_.add(a); }), "accepted");  // two of them
  a.volume_l.reset();
  a.what = Substance::juice;
  EXPECT_NE(refusal([&] { book_.add(a); }), "accepted");  // of unknown extract
  a.what = Substance::batch;
  a.other = pt1_;
  EXPECT_NE(refusal([&] { book_.add(a); }), "accepted");  // to itself
  EXPECT_TRUE(book_.additions(pt1_).empty());
}

TEST_F(Batches, AnExcludedAdditionStaysWithItsReason) {
  AdditionRecord sugar;
  sugar.batch = pt1_;
  sugar.made_at = sugar.noted_at = day("2026-03-04T10:00Z");
  sugar.amount_typed = "50g";
  sugar.mass_g = 50;
  const Id id = book_.add(sugar);
  book_.exclude_addition(id, exclusion(true, "into the other jar"));
  EXPECT_EQ(book_.additions(pt1_)[0].excluded(), "into the other jar");
  EXPECT_EQ(book_.additions(pt1_, day("2026-03-08"))[0].excluded(), "");
  expect_contains(refusal([&] { book_.exclude_addition(id, exclusion(true, "x")); }), "already");
  expect_contains(refusal([&] { book_.exclude_addition(9, exclusion(true, "x")); }), "no addition");
  book_.exclude_addition(id, exclusion(false, "no, this one"));
  EXPECT_EQ(book_.additions(pt1_)[0].excluded(), "");
}

TEST_F(Batches, AnInstrumentRetiresOnceAndStays) {
  EXPECT_FALSE(book_.retired(stem_).has_value());
  expect_contains(refusal([&] { book_.retire(stem_, day("2026-03-20"), ""); }), "for a reason");
  book_.retire(stem_, day("2026-03-20T10:00Z"), "broke");
  EXPECT_EQ(book_.retired(stem_)->reason, "broke");
  EXPECT_EQ(book_.retired(stem_)->at, day("2026-03-20T10:00Z"));
  expect_contains(refusal([&] { book_.retire(stem_, day("2026-03-21"), "x"); }), "already: broke");
  EXPECT_EQ(book_.instruments().size(), 1u);
}

TEST_F(Batches, ACalibrationMayBeDueAgain) {
  const Id check = book_.add(water_check(stem_, 1.001, "2026-03-01T10:00Z"));
  CalibrationRecord r = calibration(stem_, {check}, "2026-03-01T10:00Z");
  book_.add(r);
  r.due = day("2027-03-01T00:00:00+01:00");
  book_.add(r);
  const auto all = book_.calibrations(stem_);
  EXPECT_FALSE(all[0].due.has_value());
  EXPECT_EQ(all[1].due->text(), "2027-03-01T00:00:00+01:00");
}

TEST_F(Batches, NothingIsEverChangedDeletedOrReplaced) {
  const Id wrong = note(1.084, "2026-03-05T10:00Z");
  const Id id = amend(wrong, 1.048, "2026-03-05T10:00Z");
  expect_contains(refusal([&] { book_.exclude_reading(wrong, exclusion(true, "x")); }),
                  "is amended by");
  book_.exclude_reading(id, exclusion(true, "bubbles"));
  AdditionRecord sugar;
  sugar.batch = pt1_;
  sugar.made_at = sugar.noted_at = day("2026-03-04T10:00Z");
  sugar.mass_g = 50;
  book_.exclude_addition(book_.add(sugar), exclusion(true, "x"));
  book_.amend({pt1_, day("2026-03-05T10:00Z"), "note", "x", {}, "y"});
  book_.note(pt1_, {day("2026-03-20"), true, ""});
  book_.retire(stem_, day("2026-03-20T10:00Z"), "broke");
  const Id check = book_.add(water_check(stem_, 1.001, "2026-03-01T10:00Z"));
  book_.add(calibration(stem_, {check}, "2026-03-01T10:00Z"));
  book_.set("temperature", "F", day("2026-03-05T10:00Z"));
  const sqlite::Connection db = raw(path());
  const auto before = db.number("SELECT total(indication) * 1e6 FROM reading");
  for (const char* table : {"reading", "reading_exclusion", "addition", "addition_exclusion",
                            "batch", "batch_amendment", "batch_event", "instrument_retired",
                            "instrument", "check_reading", "calibration", "setting"}) {
    SCOPED_TRACE(table);
    const std::string t = table;
    ASSERT_GT(db.number(("SELECT count(*) FROM " + t).c_str()), 0);
    expect_contains(refusal([&] { db.run(("DELETE FROM " + t).c_str()); }), "notebook");
    const std::string key = t == "instrument_retired" ? "instrument" : "id";
    EXPECT_NE(refusal([&] { db.run(("UPDATE " + t + " SET " + key + " = 99").c_str()); }),
              "accepted");
    EXPECT_NE(
        refusal([&] { db.run(("INSERT OR REPLACE INTO " + t + " SELECT * FROM " + t).c_str()); }),
        "accepted");
  }
  EXPECT_EQ(db.number("SELECT total(indication) * 1e6 FROM reading"), before);
}

}  // namespace
}  // namespace areo::notebook
