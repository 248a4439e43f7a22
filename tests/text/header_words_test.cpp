// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/text/header_words.hpp"

#include <gtest/gtest.h>

#include <map>
#include <string>
#include <vector>

#include "areo/core/error.hpp"
#include "areo/text/columns.hpp"

namespace areo::text {
namespace {

using Fields = std::vector<std::string>;
const Fields of_import{"batch",      "bottle",  "stage",       "date",        "time",
                       "instrument", "reading", "temperature", "thermometer", "degassed",
                       "meniscus",   "person",  "note",        "sample"};
const Fields of_correct{"reading", "temperature", "original", "original_temperature"};
const Fields of_alcohol{"original", "present", "temperature", "original_temperature",
                        "present_temperature"};
const Fields of_refract{"reading", "temperature",        "original", "original_temperature",
                        "gravity", "gravity_temperature"};
const Fields of_convert{"value"};

struct Header {
  const char *text, *field, *unit;
  const Fields* read_for = &of_import;
};
void PrintTo(const Header& h, std::ostream* out) { *out << h.text; }
class Headers : public testing::TestWithParam<Header> {};

TEST_P(Headers, MeanAField) {
  const Header& h = GetParam();
  const ColumnMeaning m = meaning_of(h.text, *h.read_for);
  EXPECT_EQ(m.field, h.field);
  EXPECT_EQ(m.unit, h.unit);
}

INSTANTIATE_TEST_SUITE_P(
    Import, Headers,
    testing::Values(Header{"reading", "reading", ""}, Header{" Reading ", "reading", ""},
                    Header{"SG", "reading", "SG"}, Header{"Specific gravity", "reading", "SG"},
                    Header{"specific_gravity", "reading", "SG"},
                    Header{"gravity (SG)", "reading", "SG"}, Header{"Brix", "reading", "Bx"},
                    Header{"gravity [P]", "reading", "P"}, Header{"SG (20/20)", "reading", "SG"},
                    Header{"SG (60/60 °F)", "reading", "SG60/60F"}, Header{"date", "date", ""},
                    Header{"made_at", "date", ""}, Header{"Time", "time", ""},
                    Header{"by", "person", ""}, Header{"comment", "note", ""},
                    Header{"bottle", "bottle", ""}, Header{"colour", "", ""},
                    Header{"(°C)", "", ""}, Header{"_c", "", ""}, Header{"", "", ""},
                    Header{"reading (", "reading", ""}, Header{"note_c", "", ""}));

INSTANTIATE_TEST_SUITE_P(
    Temperatures, Headers,
    testing::Values(Header{"temp", "temperature", "", &of_correct},
                    Header{"temp_c", "temperature", "C", &of_correct},
                    Header{"T", "temperature", "", &of_correct},
                    Header{"temperature", "temperature", "", &of_correct},
                    Header{"temperature_f", "temperature", "F", &of_correct},
                    Header{"Temperature (°C)", "temperature", "°C", &of_correct},
                    Header{"Temp (Celsius)", "temperature", "°C", &of_correct},
                    Header{"temperature_fahrenheit", "temperature", "°F", &of_correct},
                    Header{"Temp C", "temperature", "C", &of_correct},
                    Header{"temp [K]", "temperature", "K", &of_correct},
                    Header{"original temp_f", "original_temperature", "F", &of_correct},
                    Header{"original_temperature", "original_temperature", "", &of_correct},
                    Header{"Present temperature (°F)", "present_temperature", "°F", &of_alcohol}));

INSTANTIATE_TEST_SUITE_P(ByCommand, Headers,
                         testing::Values(Header{"gravity", "reading", "", &of_correct},
                                         Header{"gravity", "gravity", "", &of_refract},
                                         Header{"gravity", "", "", &of_convert},
                                         Header{"SG", "gravity", "SG", &of_refract},
                                         Header{"brix", "reading", "Bx", &of_refract},
                                         Header{"reading", "", "", &of_alcohol},
                                         Header{"OG", "original", "", &of_alcohol},
                                         Header{"FG", "present", "", &of_alcohol},
                                         Header{"original (P)", "original", "P", &of_alcohol},
                                         Header{"reading", "value", "", &of_convert},
                                         Header{"value_p", "value", "p", &of_convert}));

TEST(NearestField, IsThatOfItsNearestWord) {
  EXPECT_EQ(nearest_field("tempp", of_correct, true), "temperature");
  EXPECT_EQ(nearest_field("Raeding", of_correct, true), "reading");
  EXPECT_EQ(nearest_field("temprature (°C)", of_correct, true), "temperature");
  EXPECT_EQ(nearest_field("colour", of_import, true), "");
  EXPECT_EQ(nearest_field("pH", of_import, true), "");
}

TEST(WithUnit, IsForBareNumbersOnly) {
  const ColumnMeaning c{"temperature", "C"};
  for (const char* bare : {"30", "30.5", "-2", " 30 ", "30,5"})
    EXPECT_TRUE(with_unit(bare, c).ends_with('C')) << bare;
  EXPECT_EQ(with_unit("\u22122", c), "\u22122C");
  for (const char* other : {"", "68F", "30C", "warm", "-", "30 31"})
    EXPECT_EQ(with_unit(other, c), other);
  EXPECT_EQ(with_unit("30", ColumnMeaning{"temperature", ""}), "30");
}

// What a bare number of a gravity would be refused for, or read in thousands, stays bare.
TEST(WithUnit, SaysGravityOnlyWhereItIsPlain) {
  const ColumnMeaning sg{"reading", "SG"};
  for (const char* plain : {"1.050", "1.05", "1,050", "0.998", "1.0", "1.100"})
    EXPECT_EQ(with_unit(plain, sg), plain + std::string{"SG"});
  for (const char* other : {"1050", "1.5", "1.25", "1.1", "1", "50", "0.5", "", "1.050P"})
    EXPECT_EQ(with_unit(other, sg), other);
}

ColumnRules rules() {
  ColumnRules r;
  r.fields = of_correct;
  r.described = {"batch", "note"};
  r.both_mean_hint = "leave one out";
  r.knows_unit = [](CellKind kind, std::string_view unit) {
    return kind == CellKind::temperature ? unit == "C" || unit == "°C" || unit == "F" : unit == "P";
  };
  return r;
}
std::string refusal(const Fields& headers, const ColumnRules& r) {
  try {
    (void)Columns(headers, r, "f.csv");
    return "accepted";
  } catch (const Error& e) {
    EXPECT_EQ(e.code, Errc::file);
    return e.what() + std::string{" / "} + e.hint;
  }
}

TEST(Columns, KnowTheirFields) {
  ColumnRules r = rules();
  r.keep = {"colour"};
  r.units = {{"temp", "C"}, {"reading", "P"}};
  const Columns c{{"temp", "colour", "gravity", "remark"}, r, "f.csv"};
  EXPECT_EQ(c.find("temperature"), 0u);
  EXPECT_EQ(c.find("reading"), 2u);
  EXPECT_EQ(c.find("note"), 3u);
  EXPECT_EQ(c.find("original"), std::nullopt);
  EXPECT_EQ(c.find(""), std::nullopt);
  EXPECT_EQ(c.meanings()[0].unit, "C");
  EXPECT_EQ(c.meanings()[2].unit, "P");
  EXPECT_TRUE(c.is_kept(1));
  EXPECT_FALSE(c.is_kept(2));
}

TEST(Columns, RefuseWhatTheyDoNotKnow) {
  EXPECT_EQ(refusal({"reading", "tempp", "colour"}, rules()),
            "f.csv has columns that mean nothing here: 'tempp', 'colour' / did you mean "
            "'temperature' for 'tempp'? known: reading, temperature, original, "
            "original_temperature, batch, note; another one goes along with --keep tempp");
  ColumnRules r = rules();
  r.keep = {"tempp", "colour"};
  EXPECT_EQ(refusal({"reading", "tempp", "colour"}, r), "accepted");
  r = rules();
  r.leave_out = true;
  EXPECT_EQ(refusal({"reading", "colour"}, r), "accepted");
  EXPECT_NE(refusal({"reading", "tempp"}, r), "accepted");
}

TEST(Columns, RefuseATableWithoutWhatIsNeeded) {
  ColumnRules r = rules();
  r.needed = {"reading"};
  EXPECT_EQ(refusal({"temp", "colour"}, r),
            "f.csv has no column 'reading' / its columns are: temp, colour");
  EXPECT_EQ(refusal({"raeding", "temp"}, r),
            "f.csv has no column 'reading' / is 'raeding' it? its columns are: raeding, temp");
  EXPECT_EQ(refusal({"gravity", "temp"}, r), "accepted");
}

TEST(Columns, RefuseContradictions) {
  EXPECT_EQ(refusal({"temp", "reading", "temperature_c"}, rules()),
            "'temp' and 'temperature_c' both mean temperature / leave one out");
  EXPECT_EQ(refusal({"reading", "note", "remark"}, rules()), "accepted");
  EXPECT_NE(refusal({"reading (furlong)"}, rules()).find("'furlong'"), std::string::npos);
  EXPECT_NE(refusal({"reading", "temp_x"}, rules()).find("'x'"), std::string::npos);
  ColumnRules r = rules();
  r.units = {{"temp_c", "°C"}};
  EXPECT_EQ(refusal({"reading", "temp_c"}, r), "accepted");
  r.units = {{"temp_c", "F"}};
  EXPECT_NE(refusal({"reading", "temp_c"}, r).find("contradicts"), std::string::npos);
  r.units = {{"warmth", "F"}};
  EXPECT_NE(refusal({"reading"}, r).find("no such column"), std::string::npos);
  r.units = {{"note", "F"}};
  EXPECT_NE(refusal({"reading", "note"}, r).find("has no unit"), std::string::npos);
  r = rules();
  r.keep = {"colour"};
  EXPECT_NE(refusal({"reading"}, r).find("no such column"), std::string::npos);
}

TEST(RulesAbout, LeaveOutWhatAnObjectLacks) {
  ColumnRules r = rules();
  r.keep = {"colour", "smell"};
  r.units = {{"temp", "C"}, {"reading", "P"}};
  const ColumnRules about = rules_about(r, {"gravity", "colour"});
  EXPECT_EQ(about.keep, (Fields{"colour"}));
  EXPECT_EQ(about.units, (std::map<std::string, std::string>{{"reading", "P"}}));
}

TEST(CellWithUnit, AsksForThatOfATemperature) {
  const ColumnMeaning bare{"temperature", ""};
  EXPECT_EQ(cell_with_unit("30C", bare, "temp"), "30C");
  EXPECT_EQ(cell_with_unit("", bare, "temp"), "");
  EXPECT_EQ(cell_with_unit("1.050", {"reading", ""}, "reading"), "1.050");
  try {
    (void)cell_with_unit("30", bare, "sample temp");
    ADD_FAILURE() << "accepted";
  } catch (const ParseError& e) {
    EXPECT_STREQ(e.what(), "a temperature needs its unit");
    EXPECT_EQ(e.hint,
              "30F or 30C? once for all: a header temperature_c, or --unit \"sample "
              "temp\"=C");
  }
}

}  // namespace
}  // namespace areo::text
