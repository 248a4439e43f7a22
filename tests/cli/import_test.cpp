#include <gtest/gtest.h>

#include "areo/core/error.hpp"
#include "cli/import_readings.hpp"

namespace areo::cli {
namespace {

struct Header {
  const char *text, *field, *unit;
};
void PrintTo(const Header& h, std::ostream* out) { *out << h.text; }
class Headers : public testing::TestWithParam<Header> {};

TEST_P(Headers, MeanAField) {
  const auto& [text, field, unit] = GetParam();
  const ColumnMeaning m = meaning_of(text);
  EXPECT_EQ(m.field, field);
  EXPECT_EQ(m.unit, unit);
}

INSTANTIATE_TEST_SUITE_P(
    Import, Headers,
    testing::Values(
        Header{"reading", "reading", ""}, Header{" Reading ", "reading", ""},
        Header{"SG", "reading", ""}, Header{"Specific gravity", "reading", ""},
        Header{"specific_gravity", "reading", ""}, Header{"gravity (SG)", "reading", ""},
        Header{"Brix", "reading", "Bx"}, Header{"gravity [P]", "reading", "P"},
        Header{"Temperature (°C)", "temperature", "°C"},
        Header{"Temp (Celsius)", "temperature", "°C"},
        Header{"temperature_fahrenheit", "temperature", "°F"}, Header{"SG (20/20)", "reading", ""},
        Header{"SG (60/60 °F)", "reading", "sg60/60f"}, Header{"temperature_c", "temperature", "C"},
        Header{"temp_f", "temperature", "F"}, Header{"Temp", "temperature", ""},
        Header{"date", "date", ""}, Header{"made_at", "date", ""}, Header{"Time", "time", ""},
        Header{"by", "person", ""}, Header{"comment", "note", ""}, Header{"bottle", "bottle", ""},
        Header{"colour", "", ""}, Header{"(°C)", "", ""}, Header{"_c", "", ""}, Header{"", "", ""},
        Header{"reading (", "reading", ""}));

}  // namespace
}  // namespace areo::cli
