// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/calibration/fit.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <random>
#include <vector>

#include "areo/core/error.hpp"

namespace areo::calibration {
namespace {

Check at(double indication, double correction, double u = 0.0005) {
  return {"test", indication, {indication + correction, u}, {correction, u}};
}
// Checks that share nothing.
CheckSet independent(const std::vector<Check>& checks) {
  std::vector<double> u;
  for (const Check& c : checks) u.push_back(c.correction.u);
  return {checks, numeric::Covariance::diagonal(u)};
}
CorrectionFit fit(const std::vector<Check>& checks) {
  return fit_correction(independent(checks), 0.002, 0.110);
}
// Each end within a division, rectangular, on its own.
const double usual_slope = 0.002 * std::sqrt(2.0 / 3) / 0.110;

TEST(FitCorrection, OneCheckGivesAnOffsetOnly) {
  const CorrectionFit f = fit({at(1.000, -0.0012)});
  EXPECT_FALSE(f.slope_used);
  EXPECT_DOUBLE_EQ(f.correction.at(1.000), -0.0012);
  EXPECT_DOUBLE_EQ(f.correction.at(1.080), -0.0012);
  EXPECT_DOUBLE_EQ(f.correction.uncertainty_at(1.000), 0.0005);
  // Away from the water the scale may be off by more.
  EXPECT_NEAR(f.correction.uncertainty_at(1.080), std::hypot(0.0005, usual_slope * 0.080), 1e-12);
  EXPECT_FALSE(f.chi_squared_limit.has_value());
}

TEST(FitCorrection, TwoChecksAWholeSlopeOnlyIfItIsMoreThanUsual) {
  const CorrectionFit small = fit({at(1.000, -0.0012), at(1.040, -0.0008)});
  EXPECT_FALSE(small.slope_used);
  EXPECT_NEAR(small.correction.at(1.020), -0.0010, 1e-12);
  const CorrectionFit large = fit({at(1.000, -0.003), at(1.080, 0.003)});
  EXPECT_TRUE(large.slope_used);
  EXPECT_NEAR(large.correction.at(1.000), -0.003, 1e-12);
  EXPECT_NEAR(large.correction.at(1.080), 0.003, 1e-12);
  EXPECT_NEAR(large.correction.uncertainty_at(1.000), 0.0005, 1e-12);
  EXPECT_EQ(large.line.degrees_of_freedom, 0);
}

// A slope within what is usual is weighed against that: slope times u²(usual) / (u²(usual) + u²),
// and what both leave open counts.
TEST(FitCorrection, AUsualSlopeIsWeighedAgainstWhatIsUsual) {
  const CorrectionFit f = fit({at(1.000, -0.0012), at(1.040, -0.0008)});
  const double u_checks = 0.0005 * std::sqrt(2.0) / 0.040;
  const double u = 1 / std::hypot(1 / u_checks, 1 / usual_slope);
  EXPECT_NEAR(f.correction.u_slope, u, 1e-12);
  const double taken =
      usual_slope * usual_slope / (usual_slope * usual_slope + u_checks * u_checks);
  EXPECT_NEAR(f.correction.slope, taken * 0.0004 / 0.040, 1e-12);
  EXPECT_NEAR(f.slope_weight, taken, 1e-12);
  EXPECT_NEAR(f.correction.uncertainty_at(1.020), 0.0005 / std::sqrt(2.0), 1e-12);
  EXPECT_NEAR(f.correction.uncertainty_at(1.000), std::hypot(0.0005 / std::sqrt(2.0), u * 0.020),
              1e-12);
  // Outside, the usual slope is all that is known of the slope.
  EXPECT_NEAR(std::hypot(f.correction.u_slope, f.correction.u_slope_beyond), usual_slope, 1e-12);
}

// An error that all checks have in common does not average out, and says nothing about the slope.
TEST(FitCorrection, WhatTheChecksShareStays) {
  CheckSet set = independent({at(1.000, 0.001), at(1.030, 0.001), at(1.060, 0.001)});
  const double u_alone = fit_correction(set, 0.002, 0.110).correction.u_offset;
  const double common = 0.0008;
  for (std::size_t i = 0; i < 3; ++i)
    for (std::size_t j = i; j < 3; ++j)
      set.covariance.set(i, j, set.covariance(i, j) + common * common);
  const CorrectionFit f = fit_correction(set, 0.002, 0.110);
  EXPECT_NEAR(f.correction.u_offset, std::hypot(u_alone, common), 1e-12);
  EXPECT_NEAR(f.correction.offset, 0.001, 1e-12);
  EXPECT_NEAR(f.line.chi_squared, 0, 1e-12);
}

// The limit itself: 1.96 of u(slope) = 0.0005 √2 / 0.08 and of what is usual, together.
TEST(FitCorrection, MoreThanUsualIsAt95Percent) {
  const double limit = 1.959964 * std::hypot(0.0005 * std::sqrt(2.0), usual_slope * 0.08);
  EXPECT_FALSE(fit({at(1.000, 0), at(1.080, 0.999 * limit)}).slope_used);
  EXPECT_TRUE(fit({at(1.000, 0), at(1.080, 1.001 * limit)}).slope_used);
}

TEST(FitCorrection, TwoChecksAtOnePlaceHaveNoSlope) {
  const CorrectionFit f = fit({at(1.000, -0.001), at(1.000, -0.0012)});
  EXPECT_FALSE(f.slope_used);
  EXPECT_NEAR(f.correction.offset, -0.0011, 1e-12);
}

TEST(FitCorrection, NamesTheBadPointOfThree) {
  for (std::size_t bad = 0; bad < 3; ++bad) {
    std::vector<Check> checks{at(1.000, 0.0002), at(1.040, 0.0001), at(1.080, 0.0003)};
    checks[bad].correction.estimate += 0.006;
    const CorrectionFit f = fit(checks);
    EXPECT_FALSE(f.consistent) << bad;
    ASSERT_TRUE(f.suspect.has_value()) << bad;
    EXPECT_EQ(*f.suspect, bad);
  }
}

TEST(FitCorrection, NamesTheBadPointOfFive) {
  for (std::size_t bad = 0; bad < 5; ++bad) {
    std::vector<Check> checks;
    for (int i = 0; i < 5; ++i) checks.push_back(at(1.000 + 0.02 * i, -0.003 + 0.0015 * i));
    checks[bad].correction.estimate += 0.005;
    const CorrectionFit f = fit(checks);
    EXPECT_FALSE(f.consistent) << bad;
    ASSERT_TRUE(f.suspect.has_value()) << bad;
    EXPECT_EQ(*f.suspect, bad);
  }
}

TEST(FitCorrection, GoodChecksPassTheTestInNineteenOfTwenty) {
  std::mt19937_64 random{20260301};
  std::normal_distribution<double> noise{0, 0.0005};
  int passed = 0;
  constexpr int runs = 4000;
  for (int i = 0; i < runs; ++i) {
    const std::vector<Check> checks{
        at(1.00, 0.001 + noise(random)), at(1.03, 0.001 + noise(random)),
        at(1.06, 0.001 + noise(random)), at(1.09, 0.001 + noise(random))};
    passed += fit(checks).consistent ? 1 : 0;
  }
  // Choosing the slope only when it is significant makes the test pass a little more often than
  // 95 %; 5 standard deviations of the count below, and never all.
  EXPECT_GT(passed, runs * 0.95 - 5 * std::sqrt(runs * 0.95 * 0.05));
  EXPECT_LT(passed, runs * 0.985);
}

TEST(FitCorrection, RefusesNoChecksAndNoUncertainty) {
  EXPECT_THROW((void)fit({}), Error);
  EXPECT_THROW((void)fit({at(1.0, 0.001, 0)}), Error);
}

TEST(Judge, ThreeAnswers) {
  const auto verdict = [](double correction, double u) {
    return judge(fit({at(1.000, correction, u)}).correction, 0.002);
  };
  EXPECT_EQ(verdict(0.0005, 0.0004), Conformity::within);
  EXPECT_EQ(verdict(0.0018, 0.0004), Conformity::cannot_tell);
  EXPECT_EQ(verdict(-0.0022, 0.0004), Conformity::cannot_tell);
  EXPECT_EQ(verdict(-0.0040, 0.0004), Conformity::outside);
}

}  // namespace
}  // namespace areo::calibration
