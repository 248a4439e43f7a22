// SPDX-License-Identifier: GPL-3.0-or-later
// The bench session without a terminal: what it asks, what it says, what is in the notebook.
#include "areo/entry/guided_readings.hpp"

#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "areo/core/error.hpp"
#include "notebook/temporary.hpp"

namespace areo::entry {
namespace {

class Guided : public notebook::TemporaryFolder {
 protected:
  Guided() : book_{path(), notebook::Open::create} {
    book_.add(notebook::hydrometer("stem-1"));
    notebook::BatchRecord b;
    b.name = "PT-1";
    b.started_at = moment_from_text("2026-03-01");
    batch_ = book_.add(b);
  }
  GuidedReadings session(bool yes = false) {
    GuidedReadings::Start start;
    start.batch = "PT-1";
    start.yes = yes;
    return {book_, start, [this](const std::string& line) { said_.push_back(line); }};
  }
  [[nodiscard]] bool was_said(const std::string& part) const {
    for (const std::string& line : said_)
      if (line.find(part) != std::string::npos) return true;
    return false;
  }

  notebook::Notebook book_;
  notebook::Id batch_ = 0;
  std::vector<std::string> said_;
};

TEST_F(Guided, AsksOneThingAtATimeAndNotesWhatWasAccepted) {
  GuidedReadings g = session();
  EXPECT_EQ(g.question(), "PT-1 shows");
  g.answer("1.040 1.041");
  EXPECT_EQ(g.question(), "temperature, Enter if unknown");
  g.answer("21C");
  EXPECT_EQ(g.question(), "note it? Enter for yes, n for no");
  EXPECT_TRUE(book_.readings(batch_).empty());
  g.answer("");
  ASSERT_EQ(book_.readings(batch_).size(), 2U);
  EXPECT_EQ(book_.readings(batch_)[1].indication, 1.041);
  EXPECT_EQ(book_.readings(batch_)[1].temperature_c, 21.0);
  EXPECT_TRUE(was_said("noted as reading 1, 2"));
  EXPECT_EQ(g.question(), "PT-1 shows");
  EXPECT_EQ(g.summary(), "2 readings noted, 0 readings taken back; areo batch show PT-1");
}

TEST_F(Guided, RemembersTheTemperature) {
  GuidedReadings g = session();
  for (const char* text : {"1.040", "21C", "", "1.040"}) g.answer(text);
  EXPECT_EQ(g.question(), "temperature, Enter for 21C, - if unknown");
  g.answer("-");
  g.answer("");
  ASSERT_EQ(book_.readings(batch_).size(), 2U);
  EXPECT_FALSE(book_.readings(batch_)[1].temperature_c);
}

TEST_F(Guided, ASlipInTheTemperatureDoesNotCostTheReading) {
  GuidedReadings g = session();
  g.answer("1.040");
  EXPECT_THROW(g.answer("warm"), Error);
  EXPECT_EQ(g.question(), "temperature, Enter if unknown");
  g.answer("21C");
  g.answer("y");
  EXPECT_EQ(book_.readings(batch_).size(), 1U);
}

TEST_F(Guided, AReadingThatIsNoneIsRefusedBeforeMoreIsAsked) {
  GuidedReadings g = session();
  EXPECT_THROW(g.answer("10.40.1"), Error);
  EXPECT_EQ(g.question(), "PT-1 shows");
  EXPECT_THROW(g.answer("banana"), Error);
  EXPECT_THROW(g.answer("instrument stem-9"), Error);
  EXPECT_EQ(g.question(), "PT-1 shows");
}

TEST_F(Guided, WhatIsDoubtfulTakesASecondWord) {
  for (const bool yes : {false, true}) {
    SCOPED_TRACE(yes);
    GuidedReadings g = session(yes);
    const std::size_t before = book_.readings(batch_).size();
    for (const char* text : {"original", "1.040", "20C", "", "1.010", "20C"}) g.answer(text);
    EXPECT_EQ(g.question(), yes ? "note it? Enter for yes, n for no" : all_the_same);
    EXPECT_TRUE(was_said("look again"));
    g.answer("");
    EXPECT_EQ(g.left_doubtful(), !yes);
    EXPECT_EQ(book_.readings(batch_).size(), before + (yes ? 2U : 1U));
  }
}

TEST_F(Guided, AboveTheOriginalAnAnswerHasToBeSaid) {
  GuidedReadings g = session();
  for (const char* text : {"original", "1.040 20C", "", "1.090 20C"}) g.answer(text);
  const std::string asked = "above the original: note it all the same? y or n";
  EXPECT_EQ(g.question(), asked);
  g.answer("");
  EXPECT_EQ(g.question(), asked) << "Enter may have been meant for something else";
  g.answer("n");
  EXPECT_EQ(book_.readings(batch_).size(), 1U);
  EXPECT_TRUE(g.left_doubtful());
  for (const char* text : {"1.090 20C", "y"}) g.answer(text);
  EXPECT_EQ(book_.readings(batch_).size(), 2U);
}

TEST_F(Guided, TakesBackWhatWasAccepted) {
  GuidedReadings g = session();
  g.answer("undo");
  EXPECT_TRUE(was_said("nothing to undo"));
  for (const char* text : {"1.040", "20C", "", "undo"}) g.answer(text);
  ASSERT_EQ(book_.readings(batch_).size(), 1U);
  EXPECT_FALSE(book_.readings(batch_)[0].counts());
  EXPECT_EQ(g.summary(), "1 reading noted, 1 reading taken back; areo batch show PT-1");
}

TEST_F(Guided, EndsWhenToldTo) {
  GuidedReadings g = session();
  EXPECT_FALSE(g.over());
  g.answer("");
  EXPECT_FALSE(g.over());
  g.answer("done");
  EXPECT_TRUE(g.over());
}

TEST_F(Guided, AClosedBatchTakesNoReading) {
  book_.note(batch_, {moment_from_text("2026-03-09"), true, ""});
  EXPECT_THROW(session(), Error);
}

}  // namespace
}  // namespace areo::entry
