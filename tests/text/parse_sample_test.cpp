// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/text/parse_sample.hpp"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <string>
#include <utility>
#include <vector>

#include "areo/core/error.hpp"

namespace areo::text {
namespace {

// "1.018 at 23C; 1.010": readings with their temperatures, one after the other.
std::string words(const std::vector<ShownAt>& readings) {
  std::string out;
  for (const ShownAt& r : readings)
    out += fmt::format("{}{}{}", out.empty() ? "" : "; ", r.shown,
                       r.temperature.empty() ? "" : " at " + r.temperature);
  return out;
}

TEST(Readings, ATemperatureMayStandBehind) {
  const std::vector<std::pair<const char*, const char*>> typed{
      {"1.018 23C", "1.018 at 23C"},
      {"1.018 73F", "1.018 at 73F"},
      {"1018 21C", "1018 at 21C"},
      {"1,018 23,5C", "1,018 at 23,5C"},
      {"1.018 23 C", "1.018 at 23 C"},
      {"1.018 23 °C", "1.018 at 23 °C"},
      {"1.018 73 deg F", "1.018 at 73 deg F"},
      {"1.018 at 23C", "1.018 at 23C"},
      {"1.018 @ 23C", "1.018 at 23C"},
      {"1.018@23C", "1.018 at 23C"},
      {"1.018, 23C", "1.018 at 23C"},
      {"1.018 -1C", "1.018 at -1C"},
      {"12.5P 23C", "12.5P at 23C"},
      {"12.5 Plato 73F", "12.5 Plato at 73F"},
      {"12.5 Bx@17.5C 23C", "12.5 Bx@17.5C at 23C"},
      {"1.050 60/60 °F 73 °F", "1.050 60/60 °F at 73 °F"},
      {"1.050 SG 60°F/60°F 73F", "1.050 SG 60°F/60°F at 73F"},
      {"1.050 17.5/17.5 23C", "1.050 17.5/17.5 at 23C"},
      {"1.3512 nD 20C", "1.3512 nD at 20C"},
      {"1048 kg/m3 20C", "1048 kg/m3 at 20C"},
      {"1.018", "1.018"},
      {"12.5 P", "12.5 P"},
      {"12.5 Bx@17.5C", "12.5 Bx@17.5C"},
      {"1.050 20/20 °C", "1.050 20/20 °C"},
      {"1.048 1.010", "1.048; 1.010"},
      {"1.048 1.010 20C", "1.048; 1.010 at 20C"},
      {"1.048 26C 1.010 19C", "1.048 at 26C; 1.010 at 19C"},
      {"12,5 P 3,1 P", "12,5 P; 3,1 P"},
      {"", ""}};
  for (const auto& [text, means] : typed) EXPECT_EQ(words(readings_from_text(text)), means) << text;
}

// Nothing that is printed as a reading or a temperature is taken apart.
TEST(Readings, OneComesBackAsItWas) {
  for (const char* text : {"1.048", " 1.048 ", "1 048", "1'048", "12.5%", "warm", "1.050 20/20 °C"})
    EXPECT_EQ(reading_from_text(text).shown, text);
  EXPECT_EQ(words({reading_from_text("1.048 20C")}), "1.048 at 20C");
}

TEST(Readings, ALastTemperatureIsOfAll) {
  EXPECT_EQ(words(readings_together_from_text("1.030 1.031 19C")), "1.030 at 19C; 1.031 at 19C");
  EXPECT_EQ(words(readings_together_from_text("1.048 26C 1.010 19C")),
            "1.048 at 26C; 1.010 at 19C");
  EXPECT_EQ(words(readings_together_from_text("1.048 1.010")), "1.048; 1.010");
}

// What is refused, why, and what is pointed at.
TEST(Readings, WhatIsNotClearIsAsked) {
  struct Case {
    const char *text, *why, *pointed_at;
  };
  const auto refused = [](const Case& c, const auto& read) {
    try {
      (void)read(c.text);
      ADD_FAILURE() << c.text << " was taken";
    } catch (const ParseError& e) {
      EXPECT_EQ(std::string{e.what()}, c.why) << c.text;
      EXPECT_EQ(e.text.substr(e.position, e.length), c.pointed_at) << c.text;
      EXPECT_NE(e.hint, "") << c.text;
    }
  };
  for (const Case& c :
       {Case{"1.048 23", "23 stands behind the reading and has no unit", "23"},
        Case{"1.048 1.010", "1.010 stands behind the reading and has no unit", "1.010"},
        Case{"1.048 23C 73F", "1.048 has two temperatures, 23C and 73F", "73F"},
        Case{"23C", "23C is a temperature: no reading stands in front of it", "23C"}})
    refused(c, [](const char* text) { return reading_from_text(text); });
  refused({"1.048 26C 1.010", "26C stands behind 1.048, and not every reading has a temperature",
           "1.048 26C 1.010"},
          [](const char* text) { return readings_together_from_text(text); });
}

}  // namespace
}  // namespace areo::text
