// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/text/format.hpp"

#include <gtest/gtest.h>

#include <limits>

namespace areo::text {
namespace {

using uncertainty::Value;

// A value whose expanded uncertainty is the given one.
Value with_expanded(double estimate, double expanded) {
  const Value one{estimate, 1};
  return {estimate, expanded / one.expanded()};
}

TEST(SupportedDecimals, IsTheSecondDigitOfU) {
  const struct {
    double expanded;
    int decimals;
  } rows[] = {{0.0011, 4}, {0.011, 3},  {0.11, 2},   {1.1, 1},        {11, 0},   {110, 0},
              {12345, 0},  {0.0994, 3}, {0.0996, 2}, {0.00099951, 4}, {9.94, 1}, {9.96, 0},
              {99.4, 0},   {99.6, 0},   {0.30, 2},   {1e-12, 13}};
  for (const auto& row : rows)
    EXPECT_EQ(supported_decimals(row.expanded), row.decimals) << row.expanded;
}

TEST(SupportedDecimals, OfNoUncertaintyIsNone) {
  constexpr double infinity = std::numeric_limits<double>::infinity();
  for (const double u : {0.0, -1.0, infinity, -infinity, std::numeric_limits<double>::quiet_NaN()})
    EXPECT_EQ(supported_decimals(u), 0) << u;
}

TEST(LastPlace, MayStandLeftOfThePoint) {
  EXPECT_EQ(last_place(0.30), 2);
  EXPECT_EQ(last_place(12), 0);
  EXPECT_EQ(last_place(99.6), -1);
  EXPECT_EQ(last_place(146), -1);
  EXPECT_EQ(last_place(1460), -2);
  EXPECT_EQ(last_place(0), 0);
}

TEST(Fixed, KnowsNoNegativeZero) {
  EXPECT_EQ(fixed(-0.0, 2), "0.00");
  EXPECT_EQ(fixed(-0.004, 2), "0.00");
  EXPECT_EQ(fixed(-0.006, 2), "-0.01");
  EXPECT_EQ(fixed(-0.4, 0), "0");
  EXPECT_EQ(fixed(-4, -1), "0");
  EXPECT_EQ(fixed(-10.25, 1), "-10.2");  // a tie goes to the even digit
}

TEST(Fixed, RoundsToTensAndHundreds) {
  EXPECT_EQ(fixed(146, -1), "150");
  EXPECT_EQ(fixed(1234, -2), "1200");
  EXPECT_EQ(fixed(-146, -1), "-150");
  EXPECT_EQ(fixed(1e15 + 1, 1), "1000000000000001.0");
}

TEST(ValueText, RoundsBothToTheSecondDigitOfU) {
  const struct {
    double estimate, expanded;
    const char* text;
  } rows[] = {
      {1.04937, 0.00112, "1.0494 ± 0.0011"},
      {1.04936, 0.0996, "1.05 ± 0.10"},
      {1.04936, 0.00996, "1.049 ± 0.010"},
      {4.977, 0.304, "4.98 ± 0.30"},
      {4.977, 9.96, "5 ± 10"},
      {0, 146, "0 ± 150"},
      {-12, 146, "-10 ± 150"},
      {123.4, 9.94, "123.4 ± 9.9"},
      {1234.5, 99.6, "1230 ± 100"},
      {1234.4, 130, "1230 ± 130"},
      {-0.123, 0.05, "-0.123 ± 0.050"},
  };
  for (const auto& row : rows)
    EXPECT_EQ(value_text(with_expanded(row.estimate, row.expanded), ""), row.text);
}

TEST(ValueText, NeverShowsANegativeZero) {
  EXPECT_EQ(value_text(with_expanded(-1e-9, 0.011), ""), "0.000 ± 0.011");
  EXPECT_EQ(value_text(with_expanded(-0.0, 0.011), ""), "0.000 ± 0.011");
  EXPECT_EQ(value_text(with_expanded(-0.00049, 0.011), ""), "0.000 ± 0.011");
  EXPECT_EQ(value_text(with_expanded(-0.00051, 0.011), ""), "-0.001 ± 0.011");
}

TEST(ValueText, HasItsUnitAndFurtherDigits) {
  EXPECT_EQ(value_text(with_expanded(4.977, 0.304), "% vol"), "4.98 ± 0.30 % vol");
  EXPECT_EQ(value_text(with_expanded(4.977, 0.304), "% vol", true),
            "4.97700000 ± 0.30400000 % vol");
  EXPECT_EQ(value_text({998.2067, 0}, "kg/m³"), "998.2067 kg/m³");
}

TEST(ValueText, SurvivesWhatIsNoNumber) {
  constexpr double nan = std::numeric_limits<double>::quiet_NaN();
  EXPECT_EQ(value_text({nan, nan}, ""), "nan");
  EXPECT_EQ(value_text({1.5, nan}, ""), "1.5");
  EXPECT_NE(value_text({nan, 0.1}, "").find("nan"), std::string::npos);
}

TEST(ValueText, KeepsEveryDigitOfALargeNumber) {
  EXPECT_EQ(value_text(with_expanded(1e15 + 1, 1.2), ""), "1000000000000001.0 ± 1.2");
}

TEST(Instruction, SaysTheSignInWords) {
  EXPECT_EQ(instruction(0.00137, 4), "ADD 0.0014");
  EXPECT_EQ(instruction(-0.00137, 4), "SUBTRACT 0.0014");
  EXPECT_EQ(instruction(0.00004, 4), "ADD NOTHING");
  EXPECT_EQ(instruction(-0.00004, 4), "ADD NOTHING");
  EXPECT_EQ(instruction(0, 0), "ADD NOTHING");
  EXPECT_EQ(instruction(-0.0, 4), "ADD NOTHING");
  EXPECT_EQ(instruction(12, 0), "ADD 12");
  EXPECT_EQ(instruction(-0.00006, 4), "SUBTRACT 0.0001");
}

TEST(Printable, ReplacesControlCharactersAndNothingElse) {
  EXPECT_EQ(printable("stem-1"), "stem-1");
  EXPECT_EQ(printable("27 °C ± 1 – é 水"), "27 °C ± 1 – é 水");
  EXPECT_EQ(printable("\x1b[31mred"), "\uFFFD[31mred");
  EXPECT_EQ(printable("a\nb\r\tc\x7f"), "a\uFFFDb\uFFFD\uFFFDc\uFFFD");
  EXPECT_EQ(printable("\xc2\x9b"
                      "31m"),
            "\uFFFD"
            "31m");                              // CSI as one character
  EXPECT_EQ(printable("\xc2\xa0"), "\xc2\xa0");  // a space that does not break
  EXPECT_EQ(printable(std::string("a\0b", 3)), "a\uFFFDb");
  EXPECT_EQ(printable("\xf0\x9f\x8d\x90"), "\xf0\x9f\x8d\x90");  // four bytes, a pear
  EXPECT_EQ(printable("\xf4\x8f\xbf\xbf"), "\xf4\x8f\xbf\xbf");  // the last there is
  EXPECT_EQ(printable(""), "");
}

// Terminals that are not set to UTF-8 obey the bytes 0x80 to 0x9F by themselves.
TEST(Printable, ReplacesEachByteThatIsNoUtf8) {
  EXPECT_EQ(printable("\xc2"), "\uFFFD");  // cut off: no read past the end
  EXPECT_EQ(printable("\x9b 31m"), "\uFFFD 31m");
  EXPECT_EQ(printable("\xff"
                      "a"),
            "\uFFFD"
            "a");
  EXPECT_EQ(printable("\xe6\xb0"), "\uFFFD\uFFFD");
  EXPECT_EQ(printable("\xc0\xaf"), "\uFFFD\uFFFD");                      // a slash in disguise
  EXPECT_EQ(printable("\xe0\x9b\x9b"), "\uFFFD\uFFFD\uFFFD");            // longer than it need be
  EXPECT_EQ(printable("\xed\xa0\x80"), "\uFFFD\uFFFD\uFFFD");            // half of a pair
  EXPECT_EQ(printable("\xf4\x90\x80\x80"), "\uFFFD\uFFFD\uFFFD\uFFFD");  // beyond the last
}

TEST(DisplayWidth, CountsCharacters) {
  EXPECT_EQ(display_width(""), 0u);
  EXPECT_EQ(display_width("12 °P"), 5u);
  EXPECT_EQ(display_width("−1.5"), 4u);
  EXPECT_EQ(display_width("Baumé"), 5u);
  EXPECT_EQ(display_width("\uFFFD"), 1u);
  EXPECT_EQ(display_width("梨と"), 4u) << "wide";
  EXPECT_EQ(display_width("ＡＢ"), 4u) << "full width";
  EXPECT_EQ(display_width("🍐"), 2u) << "emoji";
  EXPECT_EQ(display_width("e\u0301"), 1u) << "a mark on a letter";
  EXPECT_EQ(display_width("a\u200Bb"), 2u) << "never seen";
  EXPECT_EQ(display_width("\xFF\xFE"), 2u) << "no UTF-8";
}

TEST(IndicationText, HasTheDecimalsOfTheScale) {
  EXPECT_EQ(indication_text(1.08, 0.002), "1.080");
  EXPECT_EQ(indication_text(1, 0.002), "1.000");
  EXPECT_EQ(indication_text(1.0015, 0.002), "1.0015");  // read between two lines
  EXPECT_EQ(indication_text(12, 0.5), "12.0");
  EXPECT_EQ(indication_text(12.25, 0.25), "12.25");
  EXPECT_EQ(indication_text(12, 0.25), "12.00");
  EXPECT_EQ(indication_text(1048, 1), "1048");
  EXPECT_EQ(indication_text(-1.5, 0.1), "-1.5");
  EXPECT_EQ(indication_text(0.1 + 0.2, 0.1), "0.3");  // the noise of a sum is no digit
  EXPECT_EQ(indication_text(1.0 / 3, 0.1), "0.333333");
}

TEST(CelsiusText, IsShort) {
  EXPECT_EQ(celsius_text(27), "27 °C");
  EXPECT_EQ(celsius_text(21.5), "21.5 °C");
  EXPECT_EQ(celsius_text(26.6666667), "26.67 °C");
  EXPECT_EQ(celsius_text(0), "0 °C");
  EXPECT_EQ(celsius_text(-0.001), "0 °C");
  EXPECT_EQ(celsius_text(100.25), "100.25 °C");
}

TEST(Shortened, KeepsWholeCharacters) {
  EXPECT_EQ(shortened("surface tension", 20), "surface tension");
  EXPECT_EQ(shortened("surface tension", 8), "surface…");
  EXPECT_EQ(shortened("±±±±", 3), "±±…");
}

TEST(Sentence, BeginsLargeAndEnds) {
  EXPECT_EQ(sentence("ends at 1.009"), "Ends at 1.009.");
  EXPECT_EQ(sentence("ABOVE"), "ABOVE.");
  EXPECT_EQ(sentence("±"), "±.");
}

TEST(DecimalsOfStep, AreThoseOfItsMultiples) {
  for (const auto& [step, decimals] :
       {std::pair{1.0, 0}, {5.0, 0}, {0.5, 1}, {0.1, 1}, {0.02, 2}, {0.001, 3}, {10.0, 0}})
    EXPECT_EQ(decimals_of_step(step), decimals) << step;
}

// Never lower than it is, and never across a limit that it does not pass.
TEST(RoundedUp, StaysOnItsSide) {
  EXPECT_EQ(rounded_up(0.171, 2), "0.18");
  EXPECT_EQ(rounded_up(0.17, 2), "0.17");
  EXPECT_EQ(rounded_up(0.5 + 1e-9, 2, 0.5), "0.51") << "a hair above it";
  EXPECT_EQ(rounded_up(0.4961, 2, 0.5), "0.50");
  EXPECT_EQ(rounded_up(0.4961, 2, 0.498), "0.497");
  EXPECT_EQ(rounded_up(141, -1), "150");
}

}  // namespace
}  // namespace areo::text
