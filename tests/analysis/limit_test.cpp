// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/analysis/limit.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

#include "areo/core/error.hpp"
#include "areo/ferment/balling.hpp"
#include "areo/ferment/drink.hpp"
#include "areo/physics/mixture.hpp"

namespace areo::analysis {
namespace {

using ferment::Culture;
using uncertainty::Side;

measurement::Original from_one(const measurement::Calibrated& c,
                               const instruments::HydrometerReading& r) {
  return {.readings = {measurement::HydrometerSample{c, r}}};
}

instruments::HydrometerReading reading(double indication) {
  instruments::HydrometerReading r;
  r.indication = indication;
  r.temperature.indication_c = 20;
  return r;
}
measurement::Calibrated stem(double division) {
  instruments::Hydrometer h;
  h.name = "stem";
  h.division = division;
  return measurement::Calibrated::never_checked(h);
}
measurement::AlcoholResult drink(double original, double present, Culture culture = Culture::yeast,
                                 double division = 0.002) {
  const measurement::Calibrated c = stem(division);
  return measurement::alcohol(c, reading(present), c, reading(original), culture);
}
const uncertainty::Value& strength(const measurement::AlcoholResult& a) {
  return a.result.at("alcohol_percent_vol").value;
}

// By hand: P(below) is the normal probability of (limit - estimate) / u, less what lies below zero.
TEST(Limit, IsTheDecisionOnTheStrength) {
  const measurement::AlcoholResult a = drink(1.018, 1.015);
  const uncertainty::Value& v = strength(a);
  const auto d = decide_strength(a, 0.5);
  const auto normal = [](double z) { return 0.5 * std::erfc(-z / std::sqrt(2.0)); };
  const double negative = normal(-v.estimate / v.u);
  EXPECT_NEAR(d.probability_below, (normal((0.5 - v.estimate) / v.u) - negative) / (1 - negative),
              1e-9);
  EXPECT_EQ(d.side, Side::cannot_tell);
  EXPECT_EQ(decide_strength(a, 1.2).side, Side::below);
  EXPECT_EQ(decide_strength(a, 0.05).side, Side::above);
  // The same result at a level that less will do for: 10 % above, 90 % below.
  EXPECT_EQ(decide_strength(a, v.estimate + 1.3 * v.u, 0.9).side, Side::below);
  EXPECT_EQ(decide_strength(a, v.estimate + 1.3 * v.u, 0.95).side, Side::cannot_tell);
}

TEST(Limit, RefusesAResultWithoutStrength) {
  EXPECT_THROW((void)decide_strength(drink(1.018, 1.030), 0.5), Error);
  EXPECT_THROW((void)strength_bounds(drink(1.018, 1.030)), Error);
  EXPECT_THROW((void)strength_bounds(drink(1.018, 1.015), 1), Error);
  EXPECT_THROW((void)decide_strength(drink(1.018, 1.015), std::nan("")), Error);
  EXPECT_THROW((void)decide_strength(drink(1.018, 1.015), 0.5, 0.4), Error);
}

TEST(Limit, TheSettlingReadingSettlesAndALittleLessDoesNot) {
  for (const Culture culture : {Culture::yeast, Culture::mixed, Culture::acetic}) {
    const measurement::Calibrated c = stem(0.002);
    const auto least =
        least_indication_below({c, reading(1.010)}, from_one(c, reading(1.018)), culture, 0.5);
    ASSERT_TRUE(least.has_value());
    EXPECT_GT(*least, 1.010);
    EXPECT_LT(*least, 1.018);
    const auto side = [&](double indication) {
      return decide_strength(
                 measurement::alcohol(c, reading(indication), c, reading(1.018), culture), 0.5)
          .side;
    };
    EXPECT_EQ(side(*least), Side::below);
    EXPECT_NE(side(*least - 0.00005), Side::below);
  }
}

TEST(Limit, ACoarseInstrumentNeverDecides) {
  const measurement::Calibrated c = stem(0.01);
  EXPECT_FALSE(
      least_indication_below({c, reading(1.010)}, from_one(c, reading(1.018)), Culture::yeast, 0.5)
          .has_value());
}

TEST(Culture, MixedTakesAcidsOffAndWidens) {
  const measurement::AlcoholResult yeast = drink(1.050, 1.010);
  const measurement::AlcoholResult mixed = drink(1.050, 1.010, Culture::mixed);
  // Acids from nothing to 15 %: the middle lies 7.5 % lower by mass, and u is 15 % / √12 of it.
  const double mass = yeast.result.at("alcohol_percent_mass").value.estimate;
  EXPECT_NEAR(mixed.result.at("alcohol_percent_mass").value.estimate, 0.925 * mass, 1e-9);
  const double added =
      std::sqrt(std::pow(mixed.result.at("alcohol_percent_mass").value.u, 2) -
                std::pow(0.925 * yeast.result.at("alcohol_percent_mass").value.u, 2));
  EXPECT_NEAR(added, 0.15 / std::sqrt(12.0) * mass, 1e-9);
  EXPECT_EQ(mixed.state, measurement::Fermentation::measured);
  // The density is what was measured, whatever became of the sugar; but less alcohol pulls more:
  // 0.3 % by mass are 0.7 mN/m.
  EXPECT_NEAR(mixed.result.at("sg_20_20_present").value.estimate,
              yeast.result.at("sg_20_20_present").value.estimate + 0.000048, 2e-6);
}

// What may have become acids is no reason to be surer that there is little alcohol.
TEST(Culture, MixedIsBelowOnlyWhereYeastIs) {
  const measurement::AlcoholResult mixed = drink(1.018, 1.014, Culture::mixed),
                                   yeast = drink(1.018, 1.014);
  const double upper = strength_bounds(yeast).upper;
  EXPECT_EQ(strength_bounds(mixed).upper, upper);
  EXPECT_LT(strength_bounds(mixed).lower, strength_bounds(yeast).lower);
  // Between the bound of the mixed culture by itself and that of clean yeast.
  measurement::AlcoholResult alone = mixed;
  alone.clean_yeast.reset();
  const double between = (strength_bounds(alone).upper + upper) / 2;
  EXPECT_EQ(decide_strength(alone, between).side, Side::below);
  EXPECT_EQ(decide_strength(mixed, between).side, Side::cannot_tell);
  EXPECT_EQ(decide_strength(mixed, between).probability_below,
            decide_strength(yeast, between).probability_below);
  EXPECT_EQ(decide_strength(mixed, between).probability_above,
            decide_strength(alone, between).probability_above);
  EXPECT_EQ(decide_strength(mixed, upper + 1e-9).side, Side::below);
  // Above is for acids, too.
  const double lower = strength_bounds(yeast).lower;
  EXPECT_EQ(decide_strength(yeast, lower - 1e-9).side, Side::above);
  EXPECT_EQ(decide_strength(mixed, lower - 1e-9).side, Side::cannot_tell);
  EXPECT_EQ(decide_strength(mixed, strength_bounds(mixed).lower - 1e-9).side, Side::above);
  // Of samples both have to be given.
  const std::vector<double> none(5000, 0.1), some(5000, 0.4);
  EXPECT_EQ(decide_strength(mixed, {none, none}, 0.3).side, Side::below);
  EXPECT_EQ(decide_strength(mixed, {none, some}, 0.3).side, Side::cannot_tell);
  EXPECT_EQ(strength_bounds(mixed, {none, some}).upper, 0.4);
}

// A change that cannot be told from none does not lie above anything.
TEST(Limit, NoMeasurableChangeIsNeverAbove) {
  const measurement::AlcoholResult a = drink(1.018, 1.01672);
  ASSERT_EQ(a.state, measurement::Fermentation::no_change);
  const double lower = strength_bounds(a).lower;
  ASSERT_GT(lower, 0.001);
  EXPECT_EQ(decide_strength(a, lower - 0.0005).side, Side::cannot_tell);
}

TEST(Culture, AceticLeavesABoundThatIsNeverAbove) {
  const measurement::AlcoholResult a = drink(1.050, 1.010, Culture::acetic);
  EXPECT_EQ(a.state, measurement::Fermentation::bound);
  EXPECT_EQ(strength(a).estimate, strength(drink(1.050, 1.010)).estimate);
  EXPECT_EQ(decide_strength(a, 0.5).side, Side::cannot_tell);
  EXPECT_EQ(decide_strength(a, 6).side, Side::below);
  EXPECT_EQ(strength_bounds(a).lower, 0);
  EXPECT_EQ(decide_strength(a, 0.5).probability_above, 0);
  EXPECT_EQ(drink(1.050, 1.0499, Culture::acetic).state, measurement::Fermentation::no_change);
}

}  // namespace
}  // namespace areo::analysis
