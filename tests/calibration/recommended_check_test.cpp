// SPDX-License-Identifier: GPL-3.0-or-later
// What a check to come would leave, against the same check made.
#include "areo/calibration/recommended_check.hpp"

#include <gtest/gtest.h>

#include <limits>

#include "areo/calibration/check.hpp"
#include "areo/calibration/fit.hpp"
#include "areo/core/error.hpp"

namespace areo::calibration {
namespace {

using instruments::Hydrometer;
using instruments::Refractometer;

TEST(RecommendedCheck, IsTheCheckOfAnIdealHydrometer) {
  const Hydrometer h;
  const auto plan = recommended_check(h);
  ASSERT_TRUE(plan && plan->water);
  ASSERT_EQ(plan->solutions.size(), 2U);
  HydrometerChecks checks{h};
  instruments::HydrometerReading r;
  r.indication = 1.000;
  checks.add_in_water(r);
  r.indication = 1.050;
  checks.add_in_solution(r, plan->solutions[0]);
  r.indication = 1.090;
  checks.add_in_solution(r, plan->solutions[1]);
  const CheckSet set = checks.evaluate();
  for (const Check& c : set.checks) EXPECT_NEAR(c.correction.estimate, 0, 1e-6);
  const auto made = fit_correction(set, h.division, h.scale_length()).correction;
  EXPECT_DOUBLE_EQ(plan->correction.u_offset, made.u_offset);
  EXPECT_DOUBLE_EQ(plan->correction.u_slope, made.u_slope);
  EXPECT_DOUBLE_EQ(plan->correction.r0, made.r0);
  EXPECT_DOUBLE_EQ(plan->correction.checked_lo, 1.000);
  EXPECT_DOUBLE_EQ(plan->correction.checked_hi, 1.090);
}

TEST(RecommendedCheck, OfARefractometerIsBetterThanNone) {
  for (const auto scale :
       {instruments::RefractometerScale::brix, instruments::RefractometerScale::index}) {
    const Refractometer r = ordinary_refractometer(scale);
    const auto plan = recommended_check(r);
    ASSERT_TRUE(plan && plan->water);
    EXPECT_EQ(plan->correction.checks, 3);
    const double middle = (r.lo + r.hi) / 2;
    EXPECT_LT(plan->correction.uncertainty_at(middle),
              instruments::never_checked(r.division, r.lo, r.hi).uncertainty_at(middle));
  }
}

TEST(RecommendedCheck, AScaleAboveWaterGetsAThirdSolution) {
  Hydrometer h;
  h.lo = 1.050;
  h.hi = 1.100;
  h.division = 0.001;
  const auto plan = recommended_check(h);
  ASSERT_TRUE(plan);
  EXPECT_FALSE(plan->water);
  EXPECT_EQ(plan->solutions.size(), 3U);
  EXPECT_DOUBLE_EQ(plan->correction.checked_lo, 1.055);
}

TEST(RecommendedCheck, NothingForAScaleThatSugarDoesNotReach) {
  Hydrometer light;
  light.lo = 0.900;
  light.hi = 0.990;
  EXPECT_FALSE(recommended_check(light));
  Hydrometer nan;
  nan.division = std::numeric_limits<double>::quiet_NaN();
  EXPECT_THROW((void)recommended_check(nan), Error);
}

}  // namespace
}  // namespace areo::calibration
