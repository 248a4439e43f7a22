// SPDX-License-Identifier: GPL-3.0-or-later
// Temperatures, masses, volumes, pressures and shares.
#include <gtest/gtest.h>

#include "areo/core/error.hpp"
#include "areo/text/parse.hpp"
#include "areo/text/parse_hydrometer.hpp"
#include "text/refused.hpp"

namespace areo::text {
namespace {

TEST(Celsius, ReadsEveryUnit) {
  EXPECT_EQ(celsius_from_text("20C"), 20);
  EXPECT_EQ(celsius_from_text("20 °C"), 20);
  EXPECT_EQ(celsius_from_text("20c"), 20);
  EXPECT_EQ(celsius_from_text("20,5C"), 20.5);
  EXPECT_EQ(celsius_from_text("-2C"), -2);
  EXPECT_EQ(celsius_from_text("−2C"), -2);
  EXPECT_NEAR(celsius_from_text("68F"), 20, 1e-12);
  EXPECT_NEAR(celsius_from_text("68 °F"), 20, 1e-12);
  EXPECT_NEAR(celsius_from_text("293.15K"), 20, 1e-12);
  EXPECT_DOUBLE_EQ(celsius_half_width("20C"), 0.5);
  EXPECT_DOUBLE_EQ(celsius_half_width("20.0C"), 0.05);
  EXPECT_DOUBLE_EQ(celsius_half_width("68F"), 0.5 / 1.8);
}

TEST(Celsius, RefusesWhatCouldBeEither) {
  expect_refused({"68", "a temperature needs its unit", 0, 2, "68F or 68C?"},
                 [] { (void)celsius_from_text("68"); });
  expect_refused({"20X", "'X' is not a unit of temperature", 2, 1, "write 20C, 68F or 293K"},
                 [] { (void)celsius_from_text("20X"); });
  expect_refused({"C20", "a temperature begins with a number", 0, 3, ""},
                 [] { (void)celsius_from_text("C20"); });
  expect_refused({"20CC", "'CC' is not a unit of temperature", 2, 2, "write 20C, 68F or 293K"},
                 [] { (void)celsius_from_text("20CC"); });
}

TEST(CelsiusDifference, IsAboveZeroAndHasItsUnit) {
  EXPECT_EQ(celsius_difference_from_text("0.5C"), 0.5);
  EXPECT_EQ(celsius_difference_from_text("0.5 K"), 0.5);
  EXPECT_NEAR(celsius_difference_from_text("1.8F"), 1, 1e-12);
  for (const char* text : {"0.5", "0C", "-1C", "1X", "C"})
    EXPECT_THROW((void)celsius_difference_from_text(text), ParseError) << text;
}

TEST(Amounts, ReadTheirUnits) {
  EXPECT_EQ(grams_from_text("500g"), 500);
  EXPECT_EQ(grams_from_text("1,2 kg"), 1200);
  EXPECT_EQ(litres_from_text("0.75L"), 0.75);
  EXPECT_EQ(litres_from_text("750 mL"), 0.75);
  EXPECT_DOUBLE_EQ(pressure_from_text("98.2kPa").value(), 98200);
  EXPECT_DOUBLE_EQ(pressure_from_text("982hPa").value(), 98200);
  EXPECT_DOUBLE_EQ(pressure_from_text("982 mbar").value(), 98200);
  EXPECT_DOUBLE_EQ(altitude_from_text("300m").value(), 300);
  EXPECT_DOUBLE_EQ(altitude_from_text("1000ft").value(), 304.8);
  EXPECT_EQ(plain_number("0.002", "a division"), 0.002);
  EXPECT_EQ(plain_number("-0,5", "a division"), -0.5);
  for (const char* six_bar : {"6bar", "600 kPa", "0.6MPa", "0,6 MPa"})
    EXPECT_DOUBLE_EQ(rating_from_text(six_bar).value(), 6e5) << six_bar;
  EXPECT_NEAR(rating_from_text("100psi").value(), 689476, 0.5);  // 1 psi is 6894.757 Pa
  EXPECT_EQ(carbonation_from_text("5g/L"), 5);
  EXPECT_DOUBLE_EQ(carbonation_from_text("2 vol"), 3.954);
  EXPECT_DOUBLE_EQ(headspace_from_text("4%").value, 0.04);
  EXPECT_DOUBLE_EQ(headspace_from_text("4%").half_width, 0.005);
  EXPECT_DOUBLE_EQ(headspace_from_text("3.5 %").half_width, 0.0005);
}

TEST(Amounts, RefuseOtherUnits) {
  expect_refused({"500", "a mass needs a unit", 0, 3, "write 500g or 1.2kg"},
                 [] { (void)grams_from_text("500"); });
  expect_refused({"500G", "'G' is not a unit of a mass", 3, 1, "write 500g or 1.2kg"},
                 [] { (void)grams_from_text("500G"); });
  expect_refused({"5 gal", "'gal' is 3.785 L in the US and 4.546 L in the UK", 2, 3,
                  "write 5 US gal or 5 UK gal"},
                 [] { (void)litres_from_text("5 gal"); });
  expect_refused({"0.4P", "a correction is a plain number", 3, 1, "leave the unit out"},
                 [] { (void)plain_number("0.4P", "a correction"); });
  EXPECT_THROW((void)pressure_from_text("982"), ParseError);
  EXPECT_THROW((void)altitude_from_text("300"), ParseError);
  for (const char* bad : {"6", "0bar", "-6bar", "6 atm", "bar", ""})
    EXPECT_THROW((void)rating_from_text(bad), ParseError) << bad;
  for (const char* bad : {"2.5", "0vol", "-1g/L", "5g"})
    EXPECT_THROW((void)carbonation_from_text(bad), ParseError) << bad;
  for (const char* bad : {"4", "0%", "-4%", "51%", "30mL"})
    EXPECT_THROW((void)headspace_from_text(bad), ParseError) << bad;
}

}  // namespace
}  // namespace areo::text
