// SPDX-License-Identifier: GPL-3.0-or-later
// Drinks: every member is that of the rooms behind it, to the last bit.
#include "areo/front/drink.hpp"

#include <gtest/gtest.h>

#include <sstream>
#include <string>

#include "areo/analysis/limit.hpp"
#include "areo/core/error.hpp"
#include "areo/front/literals.hpp"
#include "areo/measurement/alcohol.hpp"
#include "areo/measurement/refract.hpp"
#include "areo/wording/notes.hpp"
#include "inner.hpp"
#include "same.hpp"

namespace areo {
namespace {

void expect_same_drink(const Drink& front, const measurement::AlcoholResult& a) {
  const measurement::Result& inner = a.result;
  expect_same(front.strength, inner, "alcohol_percent_vol");
  expect_same(front.strength_by_mass, inner, "alcohol_percent_mass");
  expect_same(front.original_gravity, inner, "sg_20_20_original");
  expect_same(front.present_gravity, inner, "sg_20_20_present");
  expect_same(front.original_extract, inner, "original_extract_percent");
  expect_same(front.real_extract, inner, "real_extract_percent");
  expect_same(front.apparent_extract, inner, "apparent_extract_percent");
  expect_same(front.apparent_attenuation, inner, "apparent_attenuation_percent");
  expect_same(front.real_attenuation, inner, "real_attenuation_percent");
  expect_same(front.energy, inner, "energy_kj_per_100_ml");
  EXPECT_EQ(front.state(), a.state);
}

measurement::AlcoholResult inner_alcohol(double original, double present,
                                         Culture culture = Culture::yeast) {
  const auto before = inner_reading(original, 21);
  const auto now = inner_reading(present, 20);
  return measurement::alcohol(now.instrument, now.reading, before.instrument, before.reading,
                              culture);
}

TEST(Alcohol, IsThatOfTheRoom) {
  const Drink drink = alcohol({.original = front_stem().read(1.050_sg, 21_degC),
                               .present = front_stem().read(1.011_sg, 20_degC)});
  const auto inner = inner_alcohol(1.050, 1.011);
  expect_same_drink(drink, inner);
  EXPECT_EQ(drink.notes, wording::all_notes(inner.result));
  EXPECT_TRUE(drink.is_figure());
}

TEST(Alcohol, TakesTheCulture) {
  const auto front = [](Culture culture) {
    return alcohol({.original = front_stem().read(1.050_sg, 21_degC),
                    .present = front_stem().read(1.011_sg, 20_degC),
                    .culture = culture});
  };
  expect_same_drink(front(Culture::mixed), inner_alcohol(1.050, 1.011, Culture::mixed));
  EXPECT_EQ(front(Culture::acetic).state(), Fermentation::bound);
}

TEST(Alcohol, TakesEitherInstrument) {
  const auto original = inner_reading(1.050, 21);
  const auto present = inner_refraction(6.8, 21);
  expect_same_drink(alcohol({.original = front_stem().read(1.050_sg, 21_degC),
                             .present = front_prism().read(6.8_brix, 21_degC)}),
                    measurement::refract_fermenting(present, original, {}));
  const auto prism_original = inner_refraction(12.4, 22);
  expect_same_drink(alcohol({.original = front_prism().read(12.4_brix, 22_degC),
                             .present = front_prism().read(6.8_brix, 21_degC)}),
                    measurement::refract_fermenting(present, prism_original, {}));
}

TEST(Alcohol, WithoutAnOriginal) {
  expect_same_drink(alcohol_without_original({.refraction = front_prism().read(6.8_brix, 21_degC),
                                              .gravity = front_stem().read(1.012_sg, 21_degC)}),
                    measurement::refract_with_hydrometer(inner_refraction(6.8, 21),
                                                         inner_reading(1.012, 21), {}));
}

// The error of whoever takes one reading for the other says so, and nothing of a missing quantity.
TEST(Alcohol, SwappedReadingsAreAnErrorThatSaysSo) {
  try {
    (void)alcohol({.original = front_stem().read(1.011_sg, 20_degC),
                   .present = front_stem().read(1.050_sg, 21_degC)});
    FAIL() << "no error";
  } catch (const Error& e) {
    EXPECT_EQ(e.code, Errc::inconsistent);
    const std::string what = e.what();
    EXPECT_NE(what.find("1.05"), std::string::npos) << what;
    EXPECT_NE(what.find("1.01"), std::string::npos) << what;
    EXPECT_NE(what.find("above the original"), std::string::npos) << what;
    EXPECT_NE(e.hint.find("swapped"), std::string::npos) << e.hint;
  }
}

TEST(Alcohol, ReadingsThatNoDrinkHasAreAnError) {
  EXPECT_THROW((void)alcohol_without_original({.refraction = front_prism().read(2_brix, 21_degC),
                                               .gravity = front_stem().read(1.060_sg, 21_degC)}),
               Error);
  EXPECT_THROW((void)alcohol({.original = front_stem().read(1.050_sg, 21_degC),
                              .present = front_stem().read(gravity(std::nan("")), 20_degC)}),
               Error);
}

std::string printed(const Drink& drink) {
  std::ostringstream out;
  out << drink;
  return out.str();
}

TEST(Alcohol, IsToldAsAFigureOrAsABound) {
  const auto drink = [](Gravity present) {
    return alcohol({.original = front_stem().read(1.050_sg, 20_degC),
                    .present = front_stem().read(present, 20_degC)});
  };
  EXPECT_EQ(printed(drink(1.011_sg)), drink(1.011_sg).strength.text());
  EXPECT_EQ(printed(drink(1.050_sg)).substr(0, 6), "below ");
  EXPECT_FALSE(drink(1.050_sg).is_figure());
}

TEST(Alcohol, DecidesAsTheRoomDoes) {
  const Drink drink = alcohol({.original = front_stem().read(1.050_sg, 21_degC),
                               .present = front_stem().read(1.011_sg, 20_degC)});
  const auto inner = inner_alcohol(1.050, 1.011);
  for (const double limit : {0.5, 5.0, 12.0}) {
    const auto front = drink.decide(percent_vol(limit));
    const auto of_room = analysis::decide_strength(inner, limit);
    EXPECT_EQ(front.side, of_room.side);
    EXPECT_EQ(front.probability_below, of_room.probability_below);
  }
  EXPECT_EQ(drink.decide(0.5_percent_vol).side, Side::above);
  EXPECT_EQ(drink.decide(12_percent_vol).side, Side::below);
  EXPECT_EQ(drink.bounds().upper, analysis::strength_bounds(inner).upper);
}

}  // namespace
}  // namespace areo
