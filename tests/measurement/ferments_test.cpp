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

}  // namespace
}  // namespace areo::measurement
