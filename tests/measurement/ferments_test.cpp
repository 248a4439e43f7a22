// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/measurement/ferments.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "areo/core/error.hpp"
#include "areo/physics/carbon_dioxide.hpp"

namespace areo::measurement {
namespace {

// 131.25 (OG - FG), common practice, no source: a rule of thumb, off by some per cent.
TEST(MadeByFall, AlcoholIsNearTheRuleOfThumb) {
  for (const double original : {1.010, 1.030, 1.060})
    EXPECT_NEAR(made_by_fall(original, 0.001).percent_vol, 0.13125, 0.05 * 0.13125) << original;
}

// 2.0665 g of extract to a gram of alcohol [balling], 0.5143 g of carbon dioxide to a gram of
// sucrose, 7.89239 g/L of alcohol to 1 % vol [oimlr22]; the extract is counted in the volume
// before, which shrinks by less than 1 %.
TEST(MadeByFall, PressureHoldsTheGasOfThatAlcohol) {
  const Made made = made_by_fall(1.020, 0.001);
  const ModelTemperature warm{celsius_point(25)};
  const physics::ClosedBottle bottle{warm, physics::solubility_in_water(warm), 0.04};
  const double held = physics::carbon_dioxide_held(bottle, pascals(1e5 * made.bar));
  const double expected = made.percent_vol * 7.89239 * 2.0665 * 0.5143;
  EXPECT_NEAR(held, expected, 0.01 * expected);
}

TEST(MadeByFall, GrowsWithTheFall) {
  const Made one = made_by_fall(1.020, 0.001), three = made_by_fall(1.020, 0.003);
  EXPECT_DOUBLE_EQ(three.percent_vol, 3 * one.percent_vol);
  EXPECT_DOUBLE_EQ(three.bar, 3 * one.bar);
  EXPECT_EQ(made_by_fall(1.020, 0).bar, 0);
  EXPECT_EQ(made_by_fall(0.990, 0.001).bar, made_by_fall(1.010, 0.001).bar);
}

TEST(MadeByFall, RefusesARise) {
  for (const double fall : {-0.001, std::nan("")})
    EXPECT_THROW((void)made_by_fall(1.020, fall), Error);
}

// What is left is a mixture of water and ethanol: of 15 % mass by Balling's balance 15 / 2.0665 g
// of it in 100 - 1.0665 / 2.0665 * 15 g, 7.87 % mass; its specific gravity by the tables is 0.9865
// (oiml r 22).
TEST(WithoutExtract, IsTheGravityOfItsAlcohol) {
  const auto lowest = gravity_without_extract({15, 0});
  ASSERT_TRUE(lowest);
  EXPECT_NEAR(lowest->estimate, 0.9865, 0.0005);
}

TEST(WithoutExtract, IsWaterWhereNoneWas) {
  const auto lowest = gravity_without_extract({0, 0});
  ASSERT_TRUE(lowest);
  EXPECT_NEAR(lowest->estimate, 1, 1e-4);
}

// An original that is read too high by its ± makes the end lower, by the derivative of the above.
TEST(WithoutExtract, GrowsUnsureWithTheOriginal) {
  const auto sure = gravity_without_extract({15, 0}), doubtful = gravity_without_extract({15, 1});
  ASSERT_TRUE(sure && doubtful);
  const double slope =
      gravity_without_extract({14.5, 0})->estimate - gravity_without_extract({15.5, 0})->estimate;
  EXPECT_GT(slope, 0);
  EXPECT_NEAR(doubtful->u, std::hypot(sure->u, slope), 0.02 * slope);
  EXPECT_GT(sure->u, 0) << "the yield is not known either";
}

TEST(WithoutExtract, IsNotKnownOfTheStrongest) { EXPECT_FALSE(gravity_without_extract({50, 0})); }

}  // namespace
}  // namespace areo::measurement
