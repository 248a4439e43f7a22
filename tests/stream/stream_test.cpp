// SPDX-License-Identifier: GPL-3.0-or-later
// Rows in, rows out, without a file or a screen.
#include "areo/stream/stream.hpp"

#include <gtest/gtest.h>

#include <sstream>

#include "areo/core/error.hpp"
#include "areo/entry/reading_resolver.hpp"
#include "areo/notebook/store.hpp"
#include "areo/stream/alcohol_rows.hpp"
#include "areo/stream/convert_rows.hpp"
#include "areo/stream/correct_rows.hpp"

namespace areo::stream {
namespace {

struct Out {
  std::vector<std::string> lines;
  text::SaidOnce refused;
};

Out run(const std::string& csv, const StreamJob& job, StreamForm form = {}) {
  Out out;
  std::istringstream in{csv};
  run_stream(
      in, "rows.csv", job, {}, form, [&](std::string_view line) { out.lines.emplace_back(line); },
      out.refused);
  return out;
}

entry::ReadingResolver without_notebook() {
  return {std::make_shared<entry::NotebookOnDemand>(
              []() -> notebook::Notebook { throw std::logic_error{"no notebook is needed"}; }),
          {}};
}

TEST(Stream, ABadRowNeverStopsTheOthers) {
  const Out out =
      run("value\n12.5P\nbanana\n10P\n", convert_rows(entry::convert_to_from_text("SG")));
  ASSERT_EQ(out.lines.size(), 4U);  // the header and a line for each row
  EXPECT_TRUE(out.lines[1].starts_with("12.5P,1.05"));
  EXPECT_NE(out.lines[2].find("banana"), std::string::npos);
  EXPECT_TRUE(out.lines[3].starts_with("10P,1.04"));
  ASSERT_EQ(out.refused.reported().size(), 1U);
  EXPECT_EQ(out.refused.reported().front().line, 3U);
}

TEST(Stream, RefusesItsOwnColumnsAndMissingOnes) {
  EXPECT_THROW(run("value,note\n1P,x\n", convert_rows(entry::convert_to_from_text(""))), Error);
  EXPECT_THROW(run("reading_of_nothing\n1\n", convert_rows(entry::convert_to_from_text(""))),
               Error);
}

TEST(Stream, FlagsRepeatsAndRises) {
  entry::ReadingResolver resolver = without_notebook();
  const Out out =
      run("batch,reading,temperature\nA,1.040,20C\nA,1.020,20C\nA,1.040,20C\nB,1.050,20C\n",
          correct_rows(resolver, {}, {physics::sg_20_20}));
  ASSERT_EQ(out.lines.size(), 5U);
  EXPECT_EQ(out.lines[2].find("jump up"), std::string::npos);
  EXPECT_NE(out.lines[3].find("jump up"), std::string::npos);
  EXPECT_NE(out.lines[3].find("same as line 2"), std::string::npos);
  EXPECT_EQ(out.lines[4].find("jump up"), std::string::npos);
}

TEST(Stream, ARowWithoutAnOriginalIsRefused) {
  entry::ReadingResolver resolver = without_notebook();
  const Out out = run("original,present,temperature\n1.050,1.010,20C\n,1.010,20C\n",
                      alcohol_rows(resolver, {}, std::nullopt), {.json = true});
  ASSERT_EQ(out.lines.size(), 2U);  // JSON has no header
  EXPECT_NE(out.lines[0].find("\"alcohol_percent_vol\""), std::string::npos);
  EXPECT_NE(out.lines[1].find("\"error\""), std::string::npos);
}

TEST(Stream, WhatEveryRowWouldStumbleOverIsRefusedBeforeTheFirst) {
  entry::ReadingResolver resolver = without_notebook();
  EXPECT_THROW((void)alcohol_rows(resolver, {.temperature = "hot"}, std::nullopt), Error);
  EXPECT_THROW((void)alcohol_rows(resolver, {.culture = "moss"}, std::nullopt), Error);
  EXPECT_THROW((void)correct_rows(resolver, {.temperature = "hot"}, {}), Error);
}

}  // namespace
}  // namespace areo::stream
