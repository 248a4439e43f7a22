// SPDX-License-Identifier: GPL-3.0-or-later
// What a card says in large words, and what a log says of an instrument.
#include <gtest/gtest.h>

#include "checked.hpp"

namespace areo::paper {
namespace {

using notebook::expect_contains;

CardOffset offset(double reading, double estimate, double u) { return {reading, {estimate, u}}; }

class CardWords : public Checked {
 protected:
  // A stem with a constant correction, or with one that changes along the scale.
  CardSubject with_correction(double offset_at_middle, double slope = 0) {
    if (book_.instruments().empty()) stem("stem-1", physics::sg_20_20, 0.990, 1.100, 0.002);
    CardSubject s = subject("stem-1");
    s.correction = {};
    s.correction.offset = offset_at_middle;
    s.correction.u_offset = 0.0001;
    s.correction.slope = slope;
    s.correction.u_slope = 1e-6;  // fitted, and hardly in doubt
    s.correction.r0 = 1.040;
    s.correction.checked_lo = 1.000;
    s.correction.checked_hi = 1.080;
    s.correction.checks = 3;
    s.ever_checked = true;
    s.calibration.emplace();
    s.calibration->in_force_from = moment_from_text("2026-03-01T12:00Z");
    return s;
  }
  static document::Headline headline(const CardSubject& s) {
    return card_headline(s, offsets_at(s, {1.000, 1.040, 1.080}));
  }
};

TEST_F(CardWords, AreOneLineWhereTheCorrectionIsTheSameEverywhere) {
  const document::Headline h = headline(with_correction(-0.0017));
  EXPECT_EQ(h.lines, (std::vector<std::string>{
                         "SUBTRACT 0.0017 from every reading between 1.000 and 1.080 at 20 °C"}));
  ASSERT_EQ(h.below.size(), 1u);
  expect_contains(h.below[0], "± 0.0002 at most");
  expect_contains(h.below[0], "At any other temperature only the table counts");
  EXPECT_EQ(headline(with_correction(0.0017)).lines.front().substr(0, 13), "ADD 0.0017 to");
  expect_contains(headline(with_correction(0)).lines.front(), "ADD NOTHING");
}

TEST_F(CardWords, AreThreeLinesWhereItChanges) {
  const document::Headline h = headline(with_correction(0, 0.05));
  ASSERT_EQ(h.lines.size(), 3u);
  EXPECT_EQ(h.lines[0], "SUBTRACT 0.0020 ± 0.0002 at 1.000");
  expect_contains(h.lines[1], "ADD NOTHING ± 0.0002 at 1.040");
  EXPECT_EQ(h.lines[2], "ADD 0.0020 ± 0.0002 at 1.080");
  expect_contains(h.below[0], "each ± for about 95 %; at 20 °C; in between in proportion");
}

TEST_F(CardWords, SayEachUncertaintyWhereOneIsLessThanHalfAsWellKnown) {
  const CardSubject s = with_correction(0.001);
  const auto condense = [&](double worst) {
    return condensed(s, {offset(1.000, 0.001, 0.0001), offset(1.040, 0.001, 0.0001),
                         offset(1.060, 0.001, 0.0001), offset(1.080, 0.001, worst)});
  };
  ASSERT_EQ(condense(0.0002).size(), 1u);
  EXPECT_TRUE(condense(0.0002).front().everywhere);
  EXPECT_EQ(condense(0.0002).front().correction.u, 0.0002) << "the one that is known least";
  const auto three = condense(0.00021);
  ASSERT_EQ(three.size(), 3u);
  EXPECT_EQ(three[0].reading, 1.000);
  EXPECT_EQ(three[1].reading, 1.060);
  EXPECT_EQ(three[2].reading, 1.080);
  EXPECT_FALSE(three[0].everywhere);
}

TEST_F(CardWords, SayThatNobodyCheckedIt) {
  stem("stem-1", physics::sg_20_20, 0.990, 1.100, 0.002);
  const CardSubject s = subject("stem-1");
  const document::Headline h = headline(s);
  EXPECT_EQ(h.lines, (std::vector<std::string>{"NEVER CHECKED"}));
  expect_contains(h.below.at(0), "within one division (0.002)");
  EXPECT_EQ(h.below.at(1), "Check it: areo calibrate water stem-1 READING TEMP");
  EXPECT_EQ(check_lines(s), (std::vector<std::string>{"Checked on: ______________"}));
  expect_contains(offset_line(s), "stem-1: NEVER CHECKED, any reading may be off by ± 0.0");
}

TEST_F(CardWords, SayThatItsChecksContradictEachOther) {
  const Id id = stem("stem-1", physics::sg_20_20, 0.990, 1.100, 0.002);
  check(id, {in_water(1.000, 20), in_water(1.020, 20), in_sugar(1.041, 21, 50, 450)});
  const CardSubject s = subject("stem-1");
  ASSERT_TRUE(s.contradicted);
  EXPECT_EQ(headline(s).lines, (std::vector<std::string>{"ITS CHECKS CONTRADICT EACH OTHER"}));
  EXPECT_EQ(offset_line(s), "stem-1: ITS CHECKS CONTRADICT EACH OTHER");
  const Card c = card_of(s, {}, {});
  expect_contains(c.grid.doubt, "which its own checks deny");
}

TEST_F(CardWords, SayThatNothingIsInForceYet) {
  const Id id = stem("stem-1", physics::sg_20_20, 0.990, 1.100, 0.002);
  const auto checks = check(id, {in_water(1.001, 20)});
  EXPECT_EQ(headline(subject("stem-1")).lines.front(), "NO CALIBRATION IN FORCE on 2026-06-01");
  expect_contains(headline(subject("stem-1")).below.at(1), "areo calibrate fit stem-1");
}

TEST_F(CardWords, SayWhenItIsDue) {
  const Id id = stem("stem-1", physics::sg_20_20, 0.990, 1.100, 0.002);
  put_in_force(id, check(id, {in_water(1.002, 21)}), "2026-05-01T12:00Z");
  const CardSubject before = subject("stem-1", "2026-04-30T12:00Z");
  EXPECT_FALSE(before.overdue());
  EXPECT_EQ(check_lines(before),
            (std::vector<std::string>{"Checked 2026-03-01 in 1 check, at 1.002 only; in force from "
                                      "2026-03-01",
                                      "Check again: 2026-05-01",
                                      "A user's check, not an accredited calibration"}));
  const CardSubject after = subject("stem-1", "2026-06-01T12:00Z");
  EXPECT_TRUE(after.overdue());
  EXPECT_EQ(headline(after).lines.back(), "DUE FOR A CHECK since 2026-05-01");
  expect_contains(check_lines(after).at(1), "Was due on 2026-05-01. Checked again on: ____");
  expect_contains(offset_line(after), "DUE FOR A CHECK");
}

}  // namespace
}  // namespace areo::paper
