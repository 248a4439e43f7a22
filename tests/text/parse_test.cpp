// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/text/parse.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <string>

#include "areo/core/error.hpp"
#include "areo/physics/scale_name.hpp"
#include "areo/text/parse_hydrometer.hpp"
#include "text/refused.hpp"

namespace areo::text {
namespace {

using physics::Scale;

const Scale sg60f = physics::specific_gravity_scale<Ref60F>();

struct Accepted {
  const char* text;
  Scale scale;
  double value, half_width;
  const char* echo = "";
};
void PrintTo(const Accepted& a, std::ostream* os) { *os << '"' << a.text << '"'; }

class Accepts : public testing::TestWithParam<Accepted> {};
TEST_P(Accepts, TheMark) {
  const Accepted& a = GetParam();
  const TypedMark m = mark_from_text(a.text);
  EXPECT_EQ(m.scale, a.scale);
  EXPECT_DOUBLE_EQ(m.value, a.value);
  EXPECT_DOUBLE_EQ(m.half_width, a.half_width);
  EXPECT_EQ(m.echo, a.echo);
}

INSTANTIATE_TEST_SUITE_P(
    Gravities, Accepts,
    testing::Values(Accepted{"1.048", physics::sg_20_20, 1.048, 0.0005},
                    Accepted{"1.0480", physics::sg_20_20, 1.048, 0.00005},
                    Accepted{"1.04", physics::sg_20_20, 1.04, 0.005},  // coarser
                    Accepted{"1.0", physics::sg_20_20, 1, 0.05},
                    Accepted{"1.000", physics::sg_20_20, 1, 0.0005},
                    Accepted{"0.998", physics::sg_20_20, 0.998, 0.0005},
                    Accepted{".998", physics::sg_20_20, 0.998, 0.0005, "read as 0.998"},
                    Accepted{",998", physics::sg_20_20, 0.998, 0.0005, "read as 0.998"},
                    Accepted{"1050", physics::sg_20_20, 1.050, 0.0005, "read as 1.050"},
                    Accepted{"1048.5", physics::sg_20_20, 1.0485, 0.00005, "read as 1.0485"},
                    Accepted{"998", physics::sg_20_20, 0.998, 0.0005, "read as 0.998"},
                    Accepted{"1,050", physics::sg_20_20, 1.050, 0.0005,
                             "read as 1.050"},  // never a thousand
                    Accepted{"1,05", physics::sg_20_20, 1.05, 0.005, "read as 1.05"},
                    Accepted{"  1.048\t", physics::sg_20_20, 1.048, 0.0005},
                    Accepted{"1.200", physics::sg_20_20, 1.2, 0.0005},
                    Accepted{"0.970", physics::sg_20_20, 0.97, 0.0005}));

INSTANTIATE_TEST_SUITE_P(
    Units, Accepts,
    testing::Values(Accepted{"12P", physics::plato_20, 12, 0.5},
                    Accepted{"12.5P", physics::plato_20, 12.5, 0.05},
                    Accepted{"12,5P", physics::plato_20, 12.5, 0.05, "read as 12.5"},
                    Accepted{"12.5 °P", physics::plato_20, 12.5, 0.05},
                    Accepted{"12.5°P", physics::plato_20, 12.5, 0.05},
                    Accepted{"12.5 plato", physics::plato_20, 12.5, 0.05},
                    Accepted{"0P", physics::plato_20, 0, 0.5},
                    Accepted{"9.8Bx", physics::brix_20, 9.8, 0.05},
                    Accepted{"-1.5Bx", physics::brix_20, -1.5, 0.05},
                    Accepted{"−1.5Bx", physics::brix_20, -1.5,
                             0.05},  // U+2212, as copied from a page
                    Accepted{"+1.5Bx", physics::brix_20, 1.5, 0.05},
                    Accepted{"6.5Be", physics::baume_scale<Modulus145>(), 6.5, 0.05},
                    Accepted{"6.5 °Bé", physics::baume_scale<Modulus145>(), 6.5, 0.05},
                    Accepted{"6.5Be144.3", physics::baume_scale<Modulus144_3>(), 6.5, 0.05},
                    Accepted{"48Oe", physics::oechsle_20, 48, 0.5},
                    Accepted{"120g/L", physics::sugar_g_l_20, 120, 0.5},
                    Accepted{"1048kg/m3", physics::density_20, 1048, 0.5},
                    Accepted{"1048 kg/m³", physics::density_20, 1048, 0.5},
                    Accepted{"1050,5kg/m3", physics::density_20, 1050.5, 0.05, "read as 1050.5"},
                    Accepted{"1,050g/cm3", physics::density_20, 1050, 0.5, "read as 1050"},
                    Accepted{"1.048g/cm3", physics::density_20, 1048, 0.5},
                    Accepted{"1.048 g/mL", physics::density_20, 1048, 0.5},
                    Accepted{"1.048SG", physics::sg_20_20, 1.048, 0.0005},
                    Accepted{"1.048SG60F", sg60f, 1.048, 0.0005},
                    Accepted{"1.048 sg 60/60 °F", sg60f, 1.048, 0.0005},
                    Accepted{"1.300SG", physics::sg_20_20, 1.3, 0.0005}));

class Refuses : public testing::TestWithParam<Refused> {};
TEST_P(Refuses, TheMark) {
  expect_refused(GetParam(), [] { (void)mark_from_text(GetParam().text); });
}

constexpr const char* slipped = "the decimal point seems to have slipped";
constexpr const char* scales =
    "scales: SG, SG15/15, SG60F, SG20/4, SGair, kg/m3, P, Bx, Be, Be144.3, Oe, g/L";
constexpr const char* percent = "percent of what? sugar or alcohol";
constexpr const char* say_percent =
    "write 12P or 12Bx for sugar, 12%vol or 12%mass for alcohol (areo convert)";
constexpr const char* no_gravity =
    "a number without a unit is read as a specific gravity, and this is not one";

INSTANTIATE_TEST_SUITE_P(
    Slipped, Refuses,
    testing::Values(
        Refused{"1.5", slipped, 0, 3, "did you mean 1.050? degrees need their unit: 1.5P, 1.5Bx"},
        Refused{"1,5", slipped, 0, 3, "did you mean 1.050? degrees need their unit: 1,5P, 1,5Bx"},
        Refused{"1.4", slipped, 0, 3, "did you mean 1.040? degrees need their unit: 1.4P, 1.4Bx"},
        Refused{"1.48", slipped, 0, 4,
                "did you mean 1.048? degrees need their unit: 1.48P, 1.48Bx"},
        Refused{"10.50", slipped, 0, 5,
                "did you mean 1.050? degrees need their unit: 10.50P, 10.50Bx"},
        Refused{"10.48", slipped, 0, 5,
                "did you mean 1.048? degrees need their unit: 10.48P, 10.48Bx"}));

INSTANTIATE_TEST_SUITE_P(
    Bare, Refuses,
    testing::Values(
        Refused{"50", "50 without a unit could be points, Brix or Plato", 0, 2,
                "write 1.050 for a specific gravity, or 50P, 50Bx, 50Oe"},
        Refused{"12", "12 without a unit could be points, Brix or Plato", 0, 2,
                "write 1.012 for a specific gravity, or 12P, 12Bx, 12Oe"},
        Refused{"1", "1 without decimals is not clear", 0, 1, "write 1.000 for water, or 1P, 1Bx"},
        Refused{"5000", "5000 without a unit could be points, Brix or Plato", 0, 4,
                "write a specific gravity as 1.048 or 1048, or add a unit: 12P, 12Bx"},
        Refused{"0.5", no_gravity, 0, 3,
                "specific gravities lie between 0.900 and 1.200; degrees need their unit: 0.5P, "
                "0.5Bx, 0.5Oe"},
        Refused{"12.5", no_gravity, 0, 4,
                "specific gravities lie between 0.900 and 1.200; degrees need their unit: 12.5P, "
                "12.5Bx, 12.5Oe"}));

INSTANTIATE_TEST_SUITE_P(Percent, Refuses,
                         testing::Values(Refused{"12%", percent, 2, 1, say_percent},
                                         Refused{"12 %", percent, 3, 1, say_percent},
                                         Refused{"12,5 %", percent, 5, 1, say_percent}));

INSTANTIATE_TEST_SUITE_P(
    Numbers, Refuses,
    testing::Values(Refused{"nan", "a reading begins with a number", 0, 3, ""},
                    Refused{"inf", "a reading begins with a number", 0, 3, ""},
                    Refused{"-inf", "a reading begins with a number", 0, 4, ""},
                    Refused{"abc", "a reading begins with a number", 0, 3, ""},
                    Refused{".", "a reading begins with a number", 0, 1, ""},
                    Refused{"-", "a reading begins with a number", 0, 1, ""},
                    Refused{"P12", "a reading begins with a number", 0, 3, ""},
                    Refused{"°12P", "a reading begins with a number", 0, 5, ""},
                    Refused{"１.０５", "a reading begins with a number", 0, 10, ""},
                    Refused{"1e3", "'e3' is not a scale", 1, 2, scales},
                    Refused{"0x10", "'x10' is not a scale", 1, 3, scales},
                    Refused{"1.048furlong", "'furlong' is not a scale", 5, 7, scales},
                    Refused{"12 °Px", "'°Px' is not a scale", 3, 4, scales},
                    Refused{"1.048 1.050", "'1.050' is not a scale", 6, 5, scales},
                    Refused{"1.0.5", "a number has one decimal mark", 3, 1,
                            "write 1.048 or 1,048, no thousands"},
                    Refused{"1,050,000", "a number has one decimal mark", 5, 1,
                            "write 1.048 or 1,048, no thousands"},
                    Refused{"1.050,0", "a number has one decimal mark", 5, 1,
                            "write 1.048 or 1,048, no thousands"},
                    Refused{"123456789012345678901234567890", "a reading has too many digits", 0,
                            30, "seventeen are the most"},
                    Refused{"1'050", "thousands have no mark here", 1, 1, "write 1048, not 1'048"},
                    Refused{"1 050kg/m3", "thousands have no mark here", 1, 1,
                            "write 1048, not 1'048"}));

TEST(Mark, EndsWhereSugarLiquidsDo) {
  const auto refusal = [](const char* text) -> std::string {
    try {
      (void)mark_from_text(text);
      return "accepted";
    } catch (const Error& e) {
      EXPECT_EQ(e.code, Errc::domain);
      return e.what() + std::string{"; "} + e.hint;
    }
  };
  EXPECT_EQ(mark_from_text("85P").value, 85);
  EXPECT_EQ(mark_from_text("-10P").value, -10);
  EXPECT_EQ(
      refusal("85.1P"),
      "85.1P is not a sugar liquid: Plato goes from -10 to 85 °P [sps4]; check the digits and "
      "the unit");
  EXPECT_EQ(refusal("-10.1P").substr(0, 6), "-10.1P");
  EXPECT_EQ(refusal("1.90SG"),
            "1.90SG is not a sugar liquid: SG 20/20 °C goes from 0.963 to 1.448 [sps4]; check the "
            "digits and the unit");
  EXPECT_EQ(
      refusal("1,050kg/m3"),
      "1,050kg/m3 is not a sugar liquid: density at 20 °C goes from 962 to 1445 kg/m³ [sps4]; "
      "did you mean 1050kg/m3, which is 1.05g/cm3?");
}

TEST(Step, IsInTheNotationOfTheEnds) {
  const TypedMark plain = mark_from_text("1.000");
  const TypedMark thousands = mark_from_text("1000");
  EXPECT_EQ(step_from_text("0.002", plain).value, 0.002);
  EXPECT_EQ(step_from_text("0.002", plain).decimals, 3);
  EXPECT_DOUBLE_EQ(step_from_text("2", thousands).value, 0.002);
  EXPECT_EQ(step_from_text("2", thousands).decimals, 3);
  EXPECT_EQ(step_from_text("0.002SG", thousands).value, 0.002);
  EXPECT_EQ(step_from_text("0.5P", mark_from_text("0P")).value, 0.5);
  EXPECT_DOUBLE_EQ(step_from_text("0.01g/cm3", mark_from_text("1000kg/m3")).value, 10);
  EXPECT_THROW((void)step_from_text("1furlong", plain), ParseError);
  EXPECT_THROW((void)step_from_text("0.5P", plain), ParseError);
  EXPECT_THROW((void)step_from_text("0", plain), ParseError);
  EXPECT_THROW((void)step_from_text("-1", plain), ParseError);
}

TEST(Mark, OfNothingSaysSo) {
  for (const char* text : {"", " ", " \t "}) {
    try {
      (void)mark_from_text(text);
      ADD_FAILURE() << "accepted";
    } catch (const ParseError& e) {
      EXPECT_STREQ(e.what(), "a reading is missing");
      EXPECT_LE(e.position, e.text.size());
    }
  }
}

// Never a crash, never a number that is not finite, never a caret outside of the text.
TEST(Mark, SurvivesEveryShortText) {
  const std::string alphabet = "01.,-+%PeE \t\xc2\xb0\xff";
  std::string text;
  const auto check = [&] {
    try {
      const TypedMark m = mark_from_text(text);
      EXPECT_TRUE(std::isfinite(m.value) && m.half_width > 0) << text;
    } catch (const ParseError& e) {
      EXPECT_LE(e.position, e.text.size()) << text;
      EXPECT_LE(e.length, e.text.size() - e.position) << text;
    } catch (const Error& e) {
      EXPECT_EQ(e.code, Errc::domain) << text;
    }
  };
  for (const char a : alphabet)
    for (const char b : alphabet)
      for (const char c : alphabet)
        for (const char d : alphabet) {
          text = {a, b, c, d};
          check();
        }
}

TEST(MarkOfAnInstrument, IsOnItsScale) {
  const TypedMark bare = mark_from_text("12", physics::plato_20);
  EXPECT_EQ(bare.scale, physics::plato_20);
  EXPECT_EQ(bare.value, 12);
  EXPECT_EQ(mark_from_text("12,5", physics::plato_20).echo, "read as 12.5");
  EXPECT_EQ(mark_from_text("12.5P", physics::plato_20).value, 12.5);
  EXPECT_EQ(mark_from_text("1.048", sg60f).scale, sg60f);
  EXPECT_EQ(mark_from_text("1048", sg60f).value, 1.048);
  EXPECT_EQ(mark_from_text("1.048SG", sg60f).scale, sg60f);  // plain SG names the kind only
  EXPECT_THROW((void)mark_from_text("50", sg60f), ParseError);
}

instruments::Hydrometer stem(const Scale& scale, double lo, double hi, double division) {
  instruments::Hydrometer h;
  h.name = "stem-1";
  h.scale = scale;
  h.lo = lo;
  h.hi = hi;
  h.division = division;
  return h;
}

TEST(MarkOfAnInstrument, MeansWhatItsRangeAllows) {
  const auto wide = stem(physics::sg_20_20, 0.95, 1.3, 0.005);
  EXPECT_EQ(mark_from_text("1.25", wide).value, 1.25);
  EXPECT_EQ(mark_from_text("1250", wide).value, 1.25);
  EXPECT_EQ(mark_from_text("1250", wide).echo, "read as 1.250");
  const auto plato = stem(physics::plato_20, 0, 20, 0.5);
  EXPECT_EQ(mark_from_text("1.0", plato).value, 1);
  EXPECT_EQ(mark_from_text("1.05P", plato).value, 1.05);
  EXPECT_EQ(mark_from_text("12,5", plato).echo, "read as 12.5");
  // which gravity "SG" names is the instrument's business
  const auto in_air = stem(physics::apparent_sg_20_20, 0.99, 1.1, 0.002);
  EXPECT_EQ(mark_from_text("1.050SG", in_air).scale, physics::apparent_sg_20_20);
}

TEST(MarkOfAnInstrument, RefusesAGravityThatItDoesNotShow) {
  expect_refused(
      {"1.050", "1.050 looks like a specific gravity; stem-1 shows Plato", 0, 5,
       "name the hydrometer that showed it, or write what stem-1 shows with its unit, as 12.5°P"},
      [] { (void)mark_from_text("1.050", stem(physics::plato_20, 0, 20, 0.5)); });
  expect_refused(
      {"1050", "1050 looks like a specific gravity; stem-1 shows Oechsle", 0, 4,
       "name the hydrometer that showed it, or write what stem-1 shows with its unit, as 48°Oe"},
      [] { (void)mark_from_text("1050", stem(physics::oechsle_20, 0, 130, 1)); });
}

TEST(MarkOfAnInstrument, RefusesAnotherScale) {
  expect_refused({"12P", "the instrument is graduated in SG 20/20 °C, not in Plato", 2, 1,
                  "write what its scale shows; areo convert changes between scales"},
                 [] { (void)mark_from_text("12P", physics::sg_20_20); });
  expect_refused({"1.05g/mL", "the instrument is graduated in Plato, not in density at 20 °C", 4, 4,
                  "write what its scale shows; areo convert changes between scales"},
                 [] { (void)mark_from_text("1.05g/mL", physics::plato_20); });
  expect_refused({"1g/mL", "a step in density at 20 °C on a table in Plato", 1, 4,
                  "leave the unit out, or write that of the ends"},
                 [] { (void)step_from_text("1g/mL", mark_from_text("12P")); });
  EXPECT_THROW((void)mark_from_text("1.048SG60F", physics::sg_20_20), ParseError);
  EXPECT_THROW((void)mark_from_text("12Bx", physics::plato_20), ParseError);
}

}  // namespace
}  // namespace areo::text
