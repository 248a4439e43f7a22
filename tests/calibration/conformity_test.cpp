// SPDX-License-Identifier: GPL-3.0-or-later
#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "areo/calibration/fit.hpp"
#include "areo/core/error.hpp"
#include "areo/uncertainty/decision.hpp"

namespace areo::calibration {
namespace {

constexpr double tolerance = 1;
constexpr double u = 0.1;

instruments::Correction offset(double correction) {
  instruments::Correction c;
  c.offset = correction;
  c.u_offset = u;
  c.checked_hi = 10;
  c.checks = 1;
  return c;
}
double risk_beyond(double error, double limit) {
  return 1 - uncertainty::probability_below({error, u}, limit);
}

// [ilac-g8]: with a guard band of U the risk of accepting what is not within is below 2.5 %; for
// U = 2 u it is Φ(-2) = 2.275 %.
TEST(Conformity, KeepsTheRiskOfTheGuideline) {
  const double guarded = tolerance - 2 * u;
  EXPECT_EQ(judge(offset(-guarded), tolerance), Conformity::within);
  EXPECT_NEAR(risk_beyond(guarded, tolerance), 0.02275, 5e-6);
  const double refused = tolerance + 2 * u;
  EXPECT_EQ(judge(offset(-refused), tolerance), Conformity::outside);
  EXPECT_NEAR(1 - risk_beyond(refused, tolerance), 0.02275, 5e-6);
}

// The verdict turns where the risk is 2.5 %, on both sides of both limits.
TEST(Conformity, TurnsAtTheGuardBand) {
  const double k = 1.959964;  // from a table of the normal distribution
  for (const double sign : {1.0, -1.0}) {
    const auto at = [&](double size) { return judge(offset(sign * size), tolerance); };
    EXPECT_EQ(at(tolerance - k * u - 1e-6), Conformity::within);
    EXPECT_EQ(at(tolerance - k * u + 1e-6), Conformity::cannot_tell);
    EXPECT_EQ(at(tolerance), Conformity::cannot_tell);
    EXPECT_EQ(at(tolerance + k * u - 1e-6), Conformity::cannot_tell);
    EXPECT_EQ(at(tolerance + k * u + 1e-6), Conformity::outside);
  }
  EXPECT_NEAR(risk_beyond(tolerance - k * u, tolerance), 0.025, 1e-6);
}

TEST(Conformity, TellsWhatItRestsOn) {
  instruments::Correction c = offset(-0.5);
  c.r0 = 2;
  c.slope = -0.1;
  const auto points = conformity_points(c, tolerance);
  ASSERT_EQ(points.size(), 2U);
  EXPECT_EQ(points[0].indication, 0);
  EXPECT_EQ(points[1].indication, 10);
  EXPECT_NEAR(points[0].error, 0.3, 1e-12);  // it shows too much
  EXPECT_NEAR(points[1].error, 1.3, 1e-12);
  EXPECT_NEAR(points[1].expanded, 0.195996, 1e-6);
  EXPECT_NEAR(points[1].least, 1.104004, 1e-6);
  EXPECT_NEAR(points[1].most, 1.495996, 1e-6);
  EXPECT_EQ(points[0].verdict, Conformity::within);
  EXPECT_EQ(points[1].verdict, Conformity::outside);
  EXPECT_EQ(judge(c, tolerance), Conformity::outside);
  EXPECT_EQ(judge(c, 1.2), Conformity::cannot_tell);
  EXPECT_EQ(conformity_points(offset(0.05), tolerance)[0].least, 0);
  c.checked_hi = c.checked_lo;
  EXPECT_EQ(conformity_points(c, tolerance).size(), 1U);
}

TEST(Conformity, RefusesWhatIsNoNumber) {
  constexpr double nan = std::numeric_limits<double>::quiet_NaN();
  constexpr double inf = std::numeric_limits<double>::infinity();
  for (const double bad : {nan, inf, 0.0, -1.0})
    EXPECT_THROW((void)judge(offset(0), bad), Error) << bad;
  EXPECT_THROW((void)judge(offset(nan), tolerance), Error);
  EXPECT_THROW((void)judge(offset(inf), tolerance), Error);
}

}  // namespace
}  // namespace areo::calibration
