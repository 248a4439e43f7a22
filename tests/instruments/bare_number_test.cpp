// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/instruments/bare_number.hpp"

#include <gtest/gtest.h>

#include <optional>
#include <string>

namespace areo::instruments {
namespace {

using physics::Scale;

// The instruments of the table, by what is written on them.
Marks stem(const Scale& scale, double lo, double hi, double division) {
  Hydrometer h;
  h.scale = scale;
  h.lo = lo;
  h.hi = hi;
  h.division = division;
  return marks_of(h);
}
Marks prism(RefractometerScale scale, double lo, double hi, double division) {
  Refractometer r;
  r.scale = scale;
  r.lo = lo;
  r.hi = hi;
  r.division = division;
  return marks_of(r);
}
const Marks any_gravity = marks_of(physics::sg_20_20);
const Marks narrow = stem(physics::sg_20_20, 0.990, 1.100, 0.002);
const Marks wide = stem(physics::sg_20_20, 0.95, 1.3, 0.005);
const Marks plato = stem(physics::plato_20, 0, 20, 0.5);
const Marks strong_plato = stem(physics::plato_20, 10, 20, 0.1);
const Marks oechsle = stem(physics::oechsle_20, 0, 130, 1);
const Marks baume = stem(physics::baume_scale<Modulus145>(), 0, 20, 0.1);
const Marks kilograms = stem(physics::density_20, 980, 1130, 2);
const Marks grams = stem(physics::sugar_g_l_20, 0, 300, 5);
const Marks brix = prism(RefractometerScale::brix, 0, 32, 0.2);
const Marks fine_brix = prism(RefractometerScale::brix, 0, 32, 0.1);
const Marks syrup_brix = prism(RefractometerScale::brix, 28, 62, 0.2);
const Marks index_scale = prism(RefractometerScale::index, 1.333, 1.384, 0.0005);

struct Case {
  const char* typed;
  const Marks* on;
  BareMeaning meaning;
  double value;
};
void PrintTo(const Case& c, std::ostream* os) { *os << '"' << c.typed << '"'; }

BareNumber number(const std::string& typed) {
  const auto mark = typed.find('.');
  return {std::stod(typed),
          mark == std::string::npos ? 0 : static_cast<int>(typed.size() - mark - 1)};
}

class BareNumbers : public testing::TestWithParam<Case> {};
TEST_P(BareNumbers, MeanWhatTheInstrumentAllows) {
  const Case& c = GetParam();
  const Bare b = meaning_of_bare(number(c.typed), *c.on);
  EXPECT_EQ(b.meaning, c.meaning);
  EXPECT_DOUBLE_EQ(b.value, c.value);
}

using enum BareMeaning;
INSTANTIATE_TEST_SUITE_P(
    OnGravityScales, BareNumbers,
    testing::Values(Case{"1.048", &narrow, mark, 1.048}, Case{"1.04", &narrow, mark, 1.04},
                    Case{"1.0", &narrow, mark, 1}, Case{"1", &narrow, one, 1},
                    Case{"1048", &narrow, thousands, 1.048}, Case{"998", &narrow, thousands, 0.998},
                    // off the scale, but a gravity: the instrument refuses it
                    Case{"1.150", &narrow, mark, 1.15},
                    // the range of the stem decides
                    Case{"1.25", &narrow, slipped, 1.025}, Case{"1.25", &wide, mark, 1.25},
                    Case{"1.250", &wide, mark, 1.25}, Case{"1250", &wide, thousands, 1.25},
                    Case{"1.30", &wide, mark, 1.3}, Case{"1.31", &wide, slipped, 1.031},
                    Case{"1.25", &any_gravity, slipped, 1.025},
                    Case{"1250", &any_gravity, whole, 2.25},
                    // one decimal is no gravity but water's
                    Case{"1.2", &wide, slipped, 1.02}, Case{"1.5", &wide, slipped, 1.05},
                    Case{"10.50", &wide, slipped, 1.05}, Case{"50", &wide, whole, 1.05},
                    Case{"12.5", &wide, other, 12.5}, Case{"0.5", &narrow, other, 0.5}));

INSTANTIATE_TEST_SUITE_P(
    OnOtherStems, BareNumbers,
    testing::Values(Case{"1.050", &plato, gravity, 1.05}, Case{"0.998", &plato, gravity, 0.998},
                    Case{"1050", &plato, gravity, 1.05}, Case{"1.350", &plato, gravity, 1.35},
                    Case{"12.5", &plato, mark, 12.5}, Case{"12.500", &plato, mark, 12.5},
                    Case{"12", &plato, mark, 12}, Case{"1", &plato, mark, 1},
                    Case{"1.0", &plato, mark, 1}, Case{"1.5", &plato, mark, 1.5},
                    Case{"0.5", &plato, mark, 0.5}, Case{"0.500", &plato, mark, 0.5},
                    // two decimals: on marks and half-way between them only
                    Case{"1.05", &plato, gravity, 1.05}, Case{"1.00", &plato, mark, 1},
                    Case{"1.25", &plato, mark, 1.25}, Case{"1.05", &baume, mark, 1.05},
                    Case{"1.04", &baume, gravity, 1.04}, Case{"1.050", &baume, gravity, 1.05},
                    // off the scale nothing else is left
                    Case{"1.0", &strong_plato, gravity, 1},
                    Case{"1.05", &strong_plato, gravity, 1.05},
                    Case{"50", &plato, mark, 50},  // the instrument refuses it
                    Case{"1.050", &oechsle, gravity, 1.05}, Case{"1050", &oechsle, gravity, 1.05},
                    Case{"1.0", &oechsle, mark, 1}, Case{"50", &oechsle, mark, 50},
                    Case{"1050", &kilograms, mark, 1050}, Case{"1.050", &kilograms, gravity, 1.05},
                    Case{"1.0", &kilograms, gravity, 1}, Case{"1.050", &grams, gravity, 1.05},
                    Case{"120", &grams, mark, 120}, Case{"1050", &grams, gravity, 1.05}));

INSTANTIATE_TEST_SUITE_P(
    OnRefractometers, BareNumbers,
    testing::Values(Case{"1.050", &brix, gravity, 1.05}, Case{"1.0", &brix, mark, 1},
                    Case{"1.1", &brix, mark, 1.1}, Case{"1", &brix, mark, 1},
                    Case{"1.10", &brix, mark, 1.1}, Case{"1.05", &brix, gravity, 1.05},
                    Case{"1.05", &fine_brix, mark, 1.05}, Case{"1.050", &fine_brix, gravity, 1.05},
                    Case{"1050", &brix, gravity, 1.05}, Case{"1.0", &syrup_brix, gravity, 1},
                    Case{"12.4", &brix, mark, 12.4}, Case{"1.3512", &brix, index, 1.3512},
                    Case{"1.35", &brix, mark, 1.35}, Case{"1.3512", &index_scale, mark, 1.3512},
                    Case{"1.050", &index_scale, gravity, 1.05},
                    Case{"1.0", &index_scale, gravity, 1}));

TEST(BareNumbers, OfAScaleAloneKnowNoRange) {
  EXPECT_EQ(meaning_of_bare({80, 0}, marks_of(physics::plato_20)).meaning, mark);
  EXPECT_EQ(meaning_of_bare({1.05, 2}, marks_of(physics::plato_20)).meaning, mark);
  EXPECT_EQ(meaning_of_bare({1.05, 3}, marks_of(physics::plato_20)).meaning, gravity);
  EXPECT_EQ(meaning_of_bare({1050, 0}, marks_of(physics::density_20)).meaning, mark);
  EXPECT_EQ(meaning_of_bare({1.05, 3}, marks_of(physics::apparent_sg_20_20)).meaning, mark);
}

TEST(MayBeGravity, GoesByTheSizeAlone) {
  for (const double v : {0.9, 1.0, 1.05, 1.3, 900., 1050., 1300.}) EXPECT_TRUE(may_be_gravity(v));
  for (const double v : {0.0, 0.89, 1.31, 12.4, 50., 899., 1301.}) EXPECT_FALSE(may_be_gravity(v));
}

}  // namespace
}  // namespace areo::instruments
