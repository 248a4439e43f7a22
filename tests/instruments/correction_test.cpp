// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/instruments/correction.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <vector>

#include "areo/core/error.hpp"
#include "areo/uncertainty/propagate.hpp"

namespace areo::instruments {
namespace {

Correction checked() {
  Correction c;
  c.r0 = 1.040;
  c.offset = 0.001;
  c.u_offset = 0.0003;
  c.slope = 0.02;
  c.u_slope = 0.005;
  c.checked_lo = 1.000;
  c.checked_hi = 1.080;
  c.u_slope_beyond = 0.01;
  c.checks = 3;
  return c;
}

TEST(Correction, IsALineAboutItsCentre) {
  EXPECT_DOUBLE_EQ(checked().at(1.040), 0.001);
  EXPECT_NEAR(checked().at(1.080), 0.0018, 1e-15);
}

TEST(Correction, GrowsOutsideTheCheckedRangeOnly) {
  const Correction c = checked();
  EXPECT_EQ(c.beyond(1.000), 0);
  EXPECT_EQ(c.beyond(1.080), 0);
  EXPECT_NEAR(c.beyond(1.100), 0.020, 1e-15);
  EXPECT_NEAR(c.beyond(0.990), -0.010, 1e-15);
  EXPECT_NEAR(c.uncertainty_at(1.080), std::hypot(0.0003, 0.005 * 0.04), 1e-15);
  EXPECT_NEAR(c.uncertainty_at(1.100), std::hypot(0.0003, 0.005 * 0.06, 0.01 * 0.02), 1e-15);
}

TEST(Correction, AsInputsItSaysTheSame) {
  uncertainty::Inputs in;
  const CorrectionInputs b = add_correction(in, {{}, "stem-1"}, "", checked());
  for (const double r : {0.990, 1.000, 1.040, 1.100}) {
    const auto v = propagate(in, [&](const uncertainty::Point& x) {
                     return std::vector{b.at(x, r)};
                   }).values[0];
    EXPECT_NEAR(v.estimate, checked().at(r), 1e-15);
    EXPECT_NEAR(v.u, checked().uncertainty_at(r), 1e-12);
  }
}

// A tolerance has limits, a fit has none: with the same u, sampling draws them differently.
TEST(Correction, HasTheShapeOfWhatIsKnown) {
  const auto shapes = [](const Correction& c) {
    uncertainty::Inputs in;
    (void)add_correction(in, {{}, "stem-1"}, "", c);
    std::vector<uncertainty::Distribution> all;
    for (const uncertainty::Input& i : in.all()) all.push_back(i.shape);
    return all;
  };
  using D = uncertainty::Distribution;
  EXPECT_EQ(shapes(checked()), (std::vector{D::normal, D::normal, D::normal, D::rectangular}));
  EXPECT_EQ(shapes(never_checked(0.002, 0.990, 1.100)),
            (std::vector{D::rectangular, D::rectangular, D::rectangular, D::rectangular}));
}

TEST(NeverChecked, OneDivisionAtTheMiddleMoreAtTheEnds) {
  const Correction c = never_checked(0.002, 0.990, 1.100);
  EXPECT_EQ(c.at(1.05), 0);
  EXPECT_EQ(c.beyond(2), 0);  // no checked range to leave
  EXPECT_NEAR(c.uncertainty_at(1.045), 0.002 / std::sqrt(3.0), 1e-15);
  EXPECT_GT(c.uncertainty_at(1.100), c.uncertainty_at(1.045));
  EXPECT_THROW((void)never_checked(0, 0, 1), Error);
  EXPECT_THROW((void)never_checked(0.1, 1, 1), Error);
  EXPECT_THROW((void)never_checked(std::nan(""), 0, 1), Error);
}

Correction later() {
  Correction c = checked();
  c.r0 = 1.035;
  c.offset = -0.001;
  c.u_offset = 0.0004;
  c.slope = 0;
  c.u_slope = 0.008;
  c.checked_lo = 1.002;
  c.checked_hi = 1.082;
  c.u_slope_beyond = 0.006;
  c.checks = 2;
  return c;
}

void expect_same(const Correction& a, const Correction& b) {
  for (const double r : {0.990, 1.000, 1.040, 1.100}) {
    EXPECT_EQ(a.at(r), b.at(r));
    EXPECT_EQ(a.uncertainty_at(r), b.uncertainty_at(r));
  }
  EXPECT_EQ(a.checks, b.checks);
}

TEST(Interpolated, EndsAreTheTwoThemselves) {
  expect_same(interpolated(checked(), later(), 0), checked());
  expect_same(interpolated(checked(), later(), 1), later());
}

// Close to an end it is close to that end, inside the range that both have.
TEST(Interpolated, ReachesTheEndsWithoutAStep) {
  for (const double r : {1.002, 1.040, 1.080}) {
    const Correction first = interpolated(checked(), later(), 1e-12);
    const Correction last = interpolated(checked(), later(), 1 - 1e-12);
    EXPECT_NEAR(first.at(r), checked().at(r), 1e-12);
    EXPECT_NEAR(last.at(r), later().at(r), 1e-12);
    // u² moves by 1e-12 of the largest variance that is in it, (0.0025)² of the change.
    EXPECT_NEAR(first.uncertainty_at(r), checked().uncertainty_at(r), 1e-12);
    EXPECT_NEAR(last.uncertainty_at(r), later().uncertainty_at(r), 1e-12);
  }
}

TEST(Interpolated, IsTheMixtureOfBothInsideTheCommonRange) {
  for (const double w : {0.1, 0.5, 0.9}) {
    const Correction c = interpolated(checked(), later(), w);
    EXPECT_EQ(c.checked_lo, 1.002);
    EXPECT_EQ(c.checked_hi, 1.080);
    EXPECT_EQ(c.checks, 5);
    for (const double r : {1.002, 1.020, 1.037, 1.080}) {
      const double b1 = checked().at(r);
      const double b2 = later().at(r);
      const double u1 = checked().uncertainty_at(r);
      const double u2 = later().uncertainty_at(r);
      EXPECT_NEAR(c.at(r), (1 - w) * b1 + w * b2, 1e-15);
      EXPECT_NEAR(c.uncertainty_at(r),
                  std::sqrt((1 - w) * u1 * u1 + w * u2 * u2 + w * (1 - w) * (b2 - b1) * (b2 - b1)),
                  1e-14);
      // No less than if both were off the same way, and half the change at the most on top.
      EXPECT_GE(c.uncertainty_at(r), (1 - w) * u1 + w * u2);
      EXPECT_LE(c.uncertainty_at(r), std::hypot(std::max(u1, u2), (b2 - b1) / 2) + 1e-15);
    }
  }
}

// Half a year after an offset of nothing, half a year before one of -0.002, each ± 0.0003 (u):
// -0.001, u = √(0.0003² + 0.25 · 0.002²) = 0.001044.
TEST(Interpolated, HalfWay) {
  Correction before;
  before.u_offset = 0.0003;
  before.checked_lo = 1.000;
  before.checked_hi = 1.080;
  before.checks = 3;
  Correction after = before;
  after.offset = -0.002;
  const Correction c = interpolated(before, after, 0.5);
  EXPECT_NEAR(c.at(1.048), -0.001, 1e-15);
  EXPECT_NEAR(c.uncertainty_at(1.048), 0.001044, 5e-7);
}

// Outside of what both were checked in, it is never better known than the two say.
TEST(Interpolated, KnowsNoMoreOutside) {
  Correction water_only = later();
  water_only.checked_lo = water_only.checked_hi = water_only.r0 = 1.000;
  water_only.u_slope = 0;
  Correction apart = water_only;
  apart.checked_lo = 1.090;
  apart.checked_hi = 1.095;
  for (const Correction& other : {later(), water_only, apart})
    for (const auto& [before, after] : {std::pair{checked(), other}, {other, checked()}})
      for (const double w : {0.01, 0.4, 0.99})
        for (const double r : {0.980, 1.000, 1.048, 1.085, 1.110}) {
          const double u1 = before.uncertainty_at(r);
          const double u2 = after.uncertainty_at(r);
          EXPECT_GE(interpolated(before, after, w).uncertainty_at(r), (1 - w) * u1 + w * u2 - 1e-15)
              << w << ' ' << r;
        }
}

// The correction of a check in water alone knows the rest of the scale as that check does.
TEST(Interpolated, ACheckAtOnePlaceDoesNotNarrowTheOther) {
  Correction water_only = later();
  water_only.checked_lo = water_only.checked_hi = water_only.r0 = 1.000;
  water_only.u_slope = 0;
  const Correction c = interpolated(checked(), water_only, 0.5);
  EXPECT_EQ(c.checked_hi, 1.080);
  const double change = water_only.at(1.05) - checked().at(1.05);
  EXPECT_NEAR(c.uncertainty_at(1.05),
              std::hypot(checked().uncertainty_at(1.05) * std::sqrt(0.5),
                         water_only.uncertainty_at(1.05) * std::sqrt(0.5), change / 2),
              1e-14);
}

TEST(Interpolated, RefusesWhatIsNotBetweenTwoCalibrations) {
  for (const double w : {-1e-9, 1 + 1e-9, std::nan("")})
    EXPECT_THROW((void)interpolated(checked(), later(), w), Error) << w;
  const Correction never = never_checked(0.002, 0.990, 1.100);
  EXPECT_THROW((void)interpolated(never, later(), 0.5), Error);
  EXPECT_THROW((void)interpolated(checked(), never, 0.5), Error);
}

}  // namespace
}  // namespace areo::instruments
