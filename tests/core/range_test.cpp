// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/core/range.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <string>

#include "areo/core/error.hpp"
#include "areo/core/model_temperature.hpp"

namespace areo {
namespace {

constexpr Range water{"water density", "°C", 0, 40, "tanaka2001"};
constexpr Range fraction{"sucrose mass fraction", "", 0, 0.85, "sps4"};
constexpr double nan = std::numeric_limits<double>::quiet_NaN();
constexpr double infinity = std::numeric_limits<double>::infinity();

// Usable where a model is a constant expression.
static_assert(water.contains(20) && !water.contains(41) && !water.contains(nan));
static_assert((require(water, 20), true));

std::string refusal(const Range& range, double v) {
  try {
    require(range, v);
  } catch (const Error& e) {
    EXPECT_EQ(e.code, Errc::domain);
    return e.what();
  }
  return "accepted";
}

TEST(Range, BothEndsBelongToIt) {
  EXPECT_EQ(refusal(water, 0), "accepted");
  EXPECT_EQ(refusal(water, -0.0), "accepted");
  EXPECT_EQ(refusal(water, 40), "accepted");
}

TEST(Range, OneStepOutsideIsOutside) {
  EXPECT_FALSE(water.contains(std::nextafter(0.0, -1)));
  EXPECT_FALSE(water.contains(std::nextafter(40.0, 41)));
  EXPECT_NE(refusal(water, std::nextafter(40.0, 41)), "accepted");
}

TEST(Range, NotANumberAndInfinityAreNeverInside) {
  for (const double v : {nan, -nan, infinity, -infinity}) {
    EXPECT_FALSE(water.contains(v)) << v;
    EXPECT_NE(refusal(water, v), "accepted") << v;
  }
}

TEST(Range, RefusalNamesQuantityValueLimitsAndSource) {
  EXPECT_EQ(refusal(water, 55), "water density is valid 0 °C to 40 °C [tanaka2001]; got 55 °C");
  EXPECT_EQ(refusal(water, -0.5), "water density is valid 0 °C to 40 °C [tanaka2001]; got -0.5 °C");
  EXPECT_EQ(refusal(water, nan), "water density is valid 0 °C to 40 °C [tanaka2001]; got nan °C");
}

// 170 °F, and one step outside: what is said must not be inside.
TEST(Range, RefusalTellsNoMoreDigitsThanItNeeds) {
  EXPECT_EQ(refusal(water, (170 - 32) / 1.8),
            "water density is valid 0 °C to 40 °C [tanaka2001]; got 76.7 °C");
  EXPECT_EQ(refusal(water, 40.02),
            "water density is valid 0 °C to 40 °C [tanaka2001]; got 40.02 °C");
  EXPECT_EQ(refusal(fraction, 0.95 + 1.0 / 3e4),
            "sucrose mass fraction is valid 0 to 0.85 [sps4]; got 0.950033");
}

TEST(ModelTemperature, AStatedOneIsStrictADrawnOneIsNot) {
  EXPECT_THROW(require(water, celsius_point(std::nextafter(40.0, 41))), Error);
  for (const double c : {-5.0, 0.0, 40.0, 41.0, 45.0})
    EXPECT_NO_THROW(require(water, ModelTemperature::drawn(celsius_point(c)))) << c;
  for (const double c : {std::nextafter(-5.0, -6), std::nextafter(45.0, 46), nan, infinity})
    EXPECT_THROW(require(water, ModelTemperature::drawn(celsius_point(c))), Error) << c;
}

TEST(Range, RefusalWithoutUnitHasNoSpaceTooMany) {
  EXPECT_EQ(refusal(fraction, 0.9), "sucrose mass fraction is valid 0 to 0.85 [sps4]; got 0.9");
}

TEST(Error, CarriesCodeMessageAndHint) {
  const Error e{Errc::store, "the notebook is busy", "close the other program"};
  EXPECT_EQ(e.code, Errc::store);
  EXPECT_STREQ(e.what(), "the notebook is busy");
  EXPECT_EQ(e.hint, "close the other program");
}

TEST(ParseError, PointsAtThePart) {
  const ParseError e{"not a number", "1.0x5", 3, 1};
  EXPECT_EQ(e.code, Errc::parse);
  EXPECT_EQ(e.text.substr(e.position, e.length), "x");
  EXPECT_TRUE(e.hint.empty());
}

}  // namespace
}  // namespace areo
