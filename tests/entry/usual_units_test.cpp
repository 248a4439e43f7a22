// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/entry/usual_units.hpp"

#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "areo/core/error.hpp"
#include "areo/text/parse.hpp"
#include "areo/text/temperature_text.hpp"

namespace areo::entry {
namespace {

const notebook::Settings american{"F", "oz", "US gal", "psi", "month first"};

TEST(UsualUnits, ABareNumberGetsItsUnitAndIsTold) {
  struct Case {
    const char* typed;
    Quantity of;
    const char *text, *echo;
  };
  for (const Case& c :
       {Case{"73", Quantity::temperature, "73 °F", "73 read as 73 °F"},
        Case{"73,5", Quantity::temperature, "73,5 °F", "73,5 read as 73,5 °F"},
        Case{"23C", Quantity::temperature, "23C", ""},
        Case{"warm", Quantity::temperature, "warm", ""}, Case{"", Quantity::temperature, "", ""},
        Case{"4", Quantity::mass, "4 oz", "4 read as 4 oz"},
        Case{"100g", Quantity::mass, "100g", ""},
        Case{"1", Quantity::volume, "1 US gal", "1 read as 1 US gal"},
        Case{"14.2", Quantity::pressure, "14.2 psi", "14.2 read as 14.2 psi"},
        Case{"3/4/2026", Quantity::date, "2026-03-04", "3/4/2026 read as 2026-03-04"},
        Case{"27/4/2026", Quantity::date, "27/4/2026", ""},
        Case{"yesterday", Quantity::date, "yesterday", ""},
        Case{"3.4.2026", Quantity::date, "3.4.2026", ""}}) {
    const Completed got = completed(c.typed, c.of, american);
    EXPECT_EQ(got.text, c.text) << c.typed;
    EXPECT_EQ(got.echo, c.echo) << c.typed;
    EXPECT_EQ(completed(c.typed, c.of, {}).text, c.typed) << "nobody set anything";
  }
  EXPECT_EQ(text::grams_from_text(completed("4", Quantity::mass, american).text),
            text::grams_from_text("4oz"));
  EXPECT_EQ(text::litres_from_text(completed("1", Quantity::volume, american).text),
            text::litres_from_text("1 US gal"));
}

TEST(UsualUnits, SettingsAreTypedInWordsOfTheTrade) {
  const auto kept = [](const char* name, const std::vector<std::string>& words) {
    return setting_from_text(name, words);
  };
  EXPECT_EQ(kept("temperature", {"f"}), "F");
  EXPECT_EQ(kept("temperature", {"°C"}), "C");
  EXPECT_EQ(kept("temperature", {"fahrenheit"}), "F");
  EXPECT_EQ(kept("volume", {"US", "gal"}), "US gal");
  EXPECT_EQ(kept("volume", {"imperial", "gallon"}), "UK gal");
  EXPECT_EQ(kept("volume", {"litres"}), "L");
  EXPECT_EQ(kept("pressure", {"PSI"}), "psi");
  EXPECT_EQ(kept("dates", {"day", "first"}), "day first");
  EXPECT_EQ(kept("dates", {"m/d/y"}), "month first");
  EXPECT_EQ(kept("mass", {"none"}), "");
  for (const auto& [name, words] : {std::pair{"temperature", std::vector<std::string>{"K"}},
                                    std::pair{"volume", std::vector<std::string>{"gal"}},
                                    std::pair{"dates", std::vector<std::string>{"iso"}},
                                    std::pair{"colour", std::vector<std::string>{"blue"}},
                                    std::pair{"mass", std::vector<std::string>{}}})
    EXPECT_THROW((void)setting_from_text(name, words), ParseError) << name;
}

// What is told can be typed again, to the hundredth that is told.
TEST(UsualUnits, ToldTemperaturesAreReadAgain) {
  for (const auto unit : {text::TemperatureUnit::celsius, text::TemperatureUnit::fahrenheit})
    for (double c = -5; c < 100; c += 0.37)
      EXPECT_NEAR(text::celsius_from_text(text::temperature_text(c, unit)), c, 0.0051) << c;
}

}  // namespace
}  // namespace areo::entry
