// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/core/moment.hpp"

#include <gtest/gtest.h>

#include <cstdlib>
#include <ctime>
#include <string>
#include <vector>

#include "areo/core/error.hpp"

namespace areo {
namespace {

// Sets the local time zone for one test. POSIX counts west of UTC: "AAA-2" is two hours east.
class ZoneTest : public testing::Test {
 protected:
  void SetUp() override {
    const char* tz = std::getenv("TZ");
    if (tz != nullptr) before_ = tz;
    had_ = tz != nullptr;
  }
  void TearDown() override {
    had_ ? setenv("TZ", before_.c_str(), 1) : unsetenv("TZ");
    tzset();
  }
  static void zone(const char* tz) {
    setenv("TZ", tz, 1);
    tzset();
  }

 private:
  std::string before_;
  bool had_ = false;
};
using MomentText = ZoneTest;

constexpr std::int64_t noon_of_march_1 = 1772366400;  // 2026-03-01T12:00:00Z

TEST_F(MomentText, AcceptsIso8601) {
  zone("UTC0");
  const struct {
    const char* text;
    std::int64_t seconds;
    std::int32_t offset_s;
  } rows[] = {
      {"2026-03-01T12:00:00Z", noon_of_march_1, 0},
      {"2026-03-01T12:00Z", noon_of_march_1, 0},
      {"2026-03-01 12:00:00", noon_of_march_1, 0},
      {"2026-03-01 12:00", noon_of_march_1, 0},
      {"2026-03-01", noon_of_march_1 - 12 * 3600, 0},
      {"2026-03-01T13:00:00+01:00", noon_of_march_1, 3600},
      {"2026-03-01T08:30:00-03:30", noon_of_march_1, -12600},
      {"2026-03-02T02:00+14:00", noon_of_march_1, 50400},
      {"2026-02-28T20:04-15:56", noon_of_march_1, -57360},
      {"2026-03-02T12:00+24:00", noon_of_march_1, 86400},
      {"2026-03-01T12:19:32+00:19:32", noon_of_march_1, 1172},
      {"2026-03-01T12:00:30Z", noon_of_march_1 + 30, 0},
      {"1970-01-01T00:00:00Z", 0, 0},
      {"1969-12-31T23:59:59Z", -1, 0},
      {"2024-02-29T00:00Z", 1709164800, 0},
      {"2026-12-31T23:59:59Z", 1798761599, 0},
  };
  for (const auto& row : rows) {
    SCOPED_TRACE(row.text);
    const Moment m = moment_from_text(row.text);
    EXPECT_EQ(m.seconds, row.seconds);
    EXPECT_EQ(m.offset_s, row.offset_s);
  }
}

// Whatever zone and year: what is written is read again as the same moment.
TEST_F(MomentText, IsReadAgainAsItWasWritten) {
  for (const char* name : {"UTC", "Asia/Manila", "Europe/Amsterdam", "America/Juneau",
                           "Pacific/Apia", "Africa/Monrovia", "Asia/Kathmandu"}) {
    zone(name);
    for (const char* text :
         {"0000-01-01T00:00:00", "0206-03-05", "1799-12-31", "1844-12-30", "1867-10-18",
          "1930-06-01", "1971-12-31T12:34:56", "2026-03-29T01:59", "9999-12-31T23:59:59"}) {
      SCOPED_TRACE(std::string{name} + " " + text);
      const Moment m = moment_from_text(text);
      const Moment again = moment_from_text(m.text());
      EXPECT_EQ(again.seconds, m.seconds) << m.text();
      EXPECT_EQ(again.offset_s, m.offset_s) << m.text();
    }
  }
}

TEST_F(MomentText, WithoutOffsetIsLocalTime) {
  zone("AAA-2");
  EXPECT_EQ(moment_from_text("2026-03-01T14:00").seconds, noon_of_march_1);
  EXPECT_EQ(moment_from_text("2026-03-01T14:00").offset_s, 7200);
  EXPECT_EQ(moment_from_text("2026-03-01").date(), "2026-03-01");
  EXPECT_EQ(moment_from_text("2026-03-01T12:00Z").offset_s, 0);
}

TEST_F(MomentText, FollowsDaylightSaving) {
  zone("AAA-1BBB,M3.5.0,M10.5.0/3");  // one hour east, two from the last Sunday in March on
  EXPECT_EQ(moment_from_text("2026-01-15T12:00").offset_s, 3600);
  EXPECT_EQ(moment_from_text("2026-07-15T12:00").offset_s, 7200);
  EXPECT_EQ(moment_from_text("2026-03-29T01:59").offset_s, 3600);
  EXPECT_EQ(moment_from_text("2026-03-29T03:01").offset_s, 7200);
}

TEST_F(MomentText, RefusesEverythingElse) {
  zone("UTC0");
  const struct {
    const char* text;
    const char* why;
  } rows[] = {
      {"1/3/2026", "is not an unambiguous date"},
      {"01.03.2026", "is not an unambiguous date"},
      {"03-01-2026", "is not an unambiguous date"},
      {"2026-3-1", "is not an unambiguous date"},
      {"2026/03/01", "is not an unambiguous date"},
      {"26-03-01", "is not an unambiguous date"},
      {"20260301", "is not an unambiguous date"},
      {"2026-03", "is not an unambiguous date"},
      {"yesterday", "is not an unambiguous date"},
      {"", "is not an unambiguous date"},
      {" 2026-03-01", "is not an unambiguous date"},
      {"-026-03-01", "is not an unambiguous date"},
      {"+026-03-01", "is not an unambiguous date"},
      {"2026--3-01", "is not an unambiguous date"},
      {"2026-02-29", "is a day that no calendar has"},
      {"2100-02-29", "is a day that no calendar has"},
      {"2026-02-30", "is a day that no calendar has"},
      {"2026-04-31", "is a day that no calendar has"},
      {"2026-13-01", "is a day that no calendar has"},
      {"2026-00-10", "is a day that no calendar has"},
      {"2026-03-00", "is a day that no calendar has"},
      {"2026-03-32", "is a day that no calendar has"},
      {"2026-03-01T24:00", "has no valid time of day"},
      {"2026-03-01T12:60", "has no valid time of day"},
      {"2026-03-01T12:00:60", "has no valid time of day"},
      {"2026-03-01T1:00", "has no valid time of day"},
      {"2026-03-01T12", "has no valid time of day"},
      {"2026-03-01T", "has no valid time of day"},
      {"2026-03-01T-1:00", "has no valid time of day"},
      {"2026-03-01T12:00 pm", "has no valid offset from UTC"},
      {"2026-03-01T12:00+1", "has no valid offset from UTC"},
      {"2026-03-01T12:00+0100", "has no valid offset from UTC"},
      {"2026-03-01T12:00+24:01", "has no valid offset from UTC"},
      {"2026-03-01T12:00+99:00", "has no valid offset from UTC"},
      {"2026-03-01T12:00+00:19:60", "has no valid offset from UTC"},
      {"2026-03-01T12:00+00:19:", "has no valid offset from UTC"},
      {"2026-03-01T12:00+01:60", "has no valid offset from UTC"},
      {"2026-03-01x", "goes on where a date should end"},
      {"2026-03-01T12:00Zx", "goes on where a date should end"},
  };
  for (const auto& row : rows) {
    SCOPED_TRACE(row.text);
    try {
      (void)moment_from_text(row.text);
      ADD_FAILURE() << "accepted";
    } catch (const ParseError& e) {
      EXPECT_EQ(e.code, Errc::parse);
      EXPECT_EQ(std::string{e.what()}, "'" + std::string{row.text} + "' " + row.why);
      EXPECT_EQ(e.text, row.text);
      EXPECT_EQ(e.position, 0u);
      EXPECT_EQ(e.length, e.text.size());
      EXPECT_FALSE(e.hint.empty());
    }
  }
}

TEST(Moment, IsOrderedByTheInstant) {
  const Moment early = moment_from_text("2026-03-01T12:00:00+02:00");  // 10:00Z
  const Moment late = moment_from_text("2026-03-01T11:00:00Z");
  EXPECT_LT(early, late);
  EXPECT_EQ(early, moment_from_text("2026-03-01T10:00:00Z"));
  EXPECT_LT(moment_from_text("2026-03-02T00:30+10:00"), moment_from_text("2026-03-01T23:00-05:00"));
}

TEST(Moment, TextComesBackAsTheSameMoment) {
  for (const char* text :
       {"2026-03-01T10:15:00+01:00", "2026-03-01T10:15:59-03:30", "2026-12-31T23:59:59+14:00",
        "1969-12-31T23:59:59+00:00", "2024-02-29T00:00:00-11:00", "0001-01-01T00:00:00+00:00"}) {
    const Moment m = moment_from_text(text);
    EXPECT_EQ(m.text(), text);
    EXPECT_EQ(moment_from_text(m.text()), m);
    EXPECT_EQ(m.date(), std::string{text}.substr(0, 10));
  }
}

TEST(Moment, OnlyThePastCanBeNoted) {
  const Moment present = moment_from_text("2026-03-01T12:00:00Z");
  EXPECT_EQ(past_moment_from_text("2026-03-01T12:00:00Z", present), present);
  EXPECT_NO_THROW((void)past_moment_from_text("2026-03-01T13:59:59+02:00", present));
  EXPECT_THROW((void)past_moment_from_text("2026-03-01T12:00:01Z", present), ParseError);
  EXPECT_THROW((void)past_moment_from_text("2026-03-01T11:59:59-01:00", present), ParseError);
  EXPECT_THROW((void)past_moment_from_text("9999-12-31", present), ParseError);
  EXPECT_THROW((void)past_moment_from_text("1/3/2026", present), ParseError);
}

TEST(PastMoment, SaysWhatToDoAboutTheFuture) {
  try {
    (void)past_moment_from_text("9999-12-31", moment_from_text("2026-03-01T12:00:00Z"));
    FAIL();
  } catch (const ParseError& e) {
    EXPECT_STREQ(e.what(), "'9999-12-31' lies in the future");
    EXPECT_EQ(e.hint, "check the year and the month; what has not happened cannot be noted");
  }
}

TEST(PastDayEnd, CountsABareDateToItsEnd) {
  const Moment present = moment_from_text("2026-03-05T12:00:00");
  EXPECT_EQ(past_day_end_from_text("2026-03-01", present), moment_from_text("2026-03-01T23:59:59"));
  EXPECT_EQ(past_day_end_from_text("2026-03-05", present), present);  // never later
  EXPECT_EQ(past_day_end_from_text("2026-03-01T10:00", present),
            moment_from_text("2026-03-01T10:00:00"));
  EXPECT_THROW((void)past_day_end_from_text("2026-03-06", present), ParseError);
}

TEST(DayEnd, MayLieInTheFuture) {
  EXPECT_EQ(day_end_from_text("2999-03-01"), moment_from_text("2999-03-01T23:59:59"));
  EXPECT_EQ(day_end_from_text("2999-03-01T10:00Z"), moment_from_text("2999-03-01T10:00:00Z"));
  EXPECT_EQ(day_end_from_text("01.03.2999"), day_end_from_text("2999-03-01"));
  for (const char* text : {"1/3/2999", "mon", "today"})
    EXPECT_THROW((void)day_end_from_text(text), ParseError) << text;
}

TEST(PastDayEnd, CountsADayInWordsToItsEnd) {
  const Moment present = moment_from_text("2026-03-05T12:00:00");
  EXPECT_EQ(past_day_end_from_text("yesterday", present), moment_from_text("2026-03-04T23:59:59"));
  EXPECT_EQ(past_day_end_from_text("4.3.2026", present), moment_from_text("2026-03-04T23:59:59"));
  EXPECT_EQ(past_day_end_from_text("today", present), present);
  EXPECT_EQ(past_day_end_from_text("10:00", present), moment_from_text("2026-03-05T10:00:00"));
}

// The day of the words is the one on the wall, not the one in Greenwich.
TEST_F(MomentText, CountsDaysInLocalTime) {
  zone("AAA-10");
  const Moment present = moment_from_text("2026-03-02T05:00");  // still the 1st in Greenwich
  EXPECT_EQ(past_moment_from_text("today", present), moment_from_text("2026-03-02"));
  EXPECT_EQ(past_moment_from_text("mon", present), moment_from_text("2026-03-02"));
  EXPECT_EQ(past_moment_from_text("sun", present), moment_from_text("2026-03-01"));
  EXPECT_EQ(past_moment_from_text("tue", present), moment_from_text("2026-02-24"));
}

TEST_F(ZoneTest, NowHasTheLocalOffset) {
  zone("AAA-2");
  const Moment m = now();
  EXPECT_EQ(m.offset_s, 7200);
  EXPECT_NEAR(static_cast<double>(m.seconds), static_cast<double>(std::time(nullptr)), 5);
}

}  // namespace
}  // namespace areo
