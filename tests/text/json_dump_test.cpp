// SPDX-License-Identifier: GPL-3.0-or-later
// What becomes of numbers, words and control characters in JSON.
#include "text/json_dump.hpp"

#include <gtest/gtest.h>

#include <limits>

namespace areo::text {
namespace {

std::string shown(const std::optional<double>& number) { return dump(number_json(number)); }

TEST(JsonNumber, IsAnIntegerWithoutAFraction) {
  EXPECT_EQ(shown(1.0), "1");
  EXPECT_EQ(shown(-7.0), "-7");
  EXPECT_EQ(shown(0.0), "0");
  EXPECT_EQ(shown(-0.0), "0");
  EXPECT_EQ(shown(1e15), "1000000000000000");
}

TEST(JsonNumber, ReadsBackAsItself) {
  for (const double v : {0.1, 1.048, 2.5e-5, 1.0 / 3, -1.0 / 3, 1e300, 5e-324})
    EXPECT_EQ(Json::parse(shown(v)).get<double>(), v);
}

TEST(JsonNumber, IsNullWhereThereIsNone) {
  EXPECT_EQ(shown(std::nullopt), "null");
  EXPECT_EQ(shown(std::numeric_limits<double>::quiet_NaN()), "null");
  EXPECT_EQ(shown(std::numeric_limits<double>::infinity()), "null");
}

TEST(JsonText, IsNullIfEmpty) {
  EXPECT_EQ(dump(text_json("")), "null");
  EXPECT_EQ(dump(text_json("x")), R"("x")");
  EXPECT_EQ(dump(or_null(std::optional<int>{})), "null");
  EXPECT_EQ(dump(or_null(std::optional{false})), "false");
}

TEST(JsonDump, DrivesNoTerminal) {
  EXPECT_EQ(dump(Json("a\x1b[31m\n")), R"("a\u001b[31m\n")");
  EXPECT_EQ(dump(Json("\x7f")), R"("\u007f")");
  EXPECT_EQ(dump(Json("\u009b31m °C")), R"("\u009b31m °C")");
  EXPECT_EQ(dump(Json("cut \xc3")), "\"cut \uFFFD\"");
}

TEST(JsonField, StandsUnderItsKeyIfThereIsSomething) {
  Json j = Json::object();
  add_field(j, "nothing", {});
  add_field(j, "word", {"measured"});
  add_field(j, "number", {"", 0.5});
  add_field(j, "zero", {"", 0.0});
  EXPECT_EQ(dump(j), R"({"word":"measured","number":0.5,"zero":0})");
  EXPECT_EQ((ExtraField{"", 0.5}.cell()), "0.5");
  EXPECT_EQ((ExtraField{"measured"}.cell()), "measured");
  EXPECT_EQ(ExtraField{}.cell(), "");
}

}  // namespace
}  // namespace areo::text
