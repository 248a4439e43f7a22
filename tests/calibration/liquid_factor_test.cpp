// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/calibration/liquid_factor.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "areo/core/error.hpp"
#include "areo/physics/mixture.hpp"

namespace areo::calibration {
namespace {

constexpr double t_c = 21;

instruments::Correction known_to(double u) {
  return {.u_offset = u, .checked_hi = 100, .checks = 3, .provenance = "test"};
}

// An unfermented sample whose extract refracts `rise` times as sugar does.
PairedReading pair(double extract, double rise, double brix_off = 0) {
  const physics::Liquid liquid{ExtractFraction{extract}};
  PairedReading p;
  static const instruments::Refractometer prism{.name = "prism"};
  static const instruments::Hydrometer stem{.name = "stem"};
  p.refractometer = prism;
  p.refractometer_correction = known_to(0.1);
  p.refraction.indication =
      ideal_indication(p.refractometer, liquid, celsius_point(t_c), {rise, 0}) + brix_off;
  p.refraction.temperature.indication_c = t_c;
  p.hydrometer = stem;
  p.hydrometer_correction = known_to(0.0003);
  p.density.indication = usual_indication(
      p.hydrometer, physics::density(liquid, celsius_point(t_c)), celsius_point(t_c));
  p.density.temperature.indication_c = t_c;
  return p;
}

TEST(LiquidFactor, FindsHowStronglyTheExtractRefracts) {
  for (const double rise : {0.95, 1.0, 1.04}) {
    const LiquidFactor f = liquid_factor(std::vector{pair(0.12, rise)});
    EXPECT_NEAR(f.optics.relative_rise, rise, 1e-8);
    EXPECT_FALSE(f.chi_squared_limit.has_value());
  }
}

// One pair at 12 Brix: 0.1 Brix of calibration, 0.1 Brix triangular by the eye, and the kitchen
// thermometer's ± 0.5 °C rectangular at 0.07 Brix per °C [itct1936]; of the hydrometer 0.0003,
// 0.001 triangular, what the scale was made for and the liquid's surface within 0.0004 and 0.0003,
// rectangular, and 0.00018 per °C of the same, at 0.0042 SG per percent
// [nbsc440]. Per twelve; at 12 % a percent refracts 1.56e-3, the mean one 1.495e-3 [icumsa1974].
TEST(LiquidFactor, UncertaintyOfOnePair) {
  const double warm = 0.5 / std::sqrt(3.0);
  const double prism = std::hypot(0.1, 0.1 / std::sqrt(6.0), 0.07 * warm);
  const double stem =
      std::hypot(std::hypot(0.0003, 0.001 / std::sqrt(6.0), 0.0004 / std::sqrt(3.0)),
                 0.00018 * warm, 0.0003 / std::sqrt(3.0)) /
      0.0042;
  const LiquidFactor f = liquid_factor(std::vector{pair(0.12, 1)});
  // Within 2 %: the factors have two or three digits.
  EXPECT_NEAR(f.optics.uncertainty, std::hypot(prism, stem) / 12 * 1.56 / 1.495,
              0.02 * f.optics.uncertainty);
}

TEST(LiquidFactor, RepeatsDoNotAverageTheCalibrationOut) {
  const std::vector<PairedReading> nine(9, pair(0.12, 1.02));
  const double u1 = liquid_factor(std::vector{pair(0.12, 1.02)}).optics.uncertainty;
  const LiquidFactor f = liquid_factor(nine);
  EXPECT_TRUE(f.consistent);
  EXPECT_NEAR(f.chi_squared, 0, 1e-9);
  EXPECT_LT(f.optics.uncertainty, u1);
  const double calibration = std::hypot(0.1, 0.0003 / 0.00405) / 12;
  EXPECT_GT(f.optics.uncertainty, calibration);
}

TEST(LiquidFactor, ScatterWidens) {
  const LiquidFactor quiet = liquid_factor(std::vector{pair(0.12, 1), pair(0.12, 1)});
  const LiquidFactor loud = liquid_factor(std::vector{pair(0.12, 1, 0.6), pair(0.12, 1, -0.6)});
  EXPECT_TRUE(quiet.consistent);
  EXPECT_FALSE(loud.consistent);
  // 0.6 Brix off, the sensitivities are not quite those at 12: 1.56e-3 per Brix changes by 0.6 %
  // over them, half of it here and half there.
  EXPECT_NEAR(loud.optics.uncertainty, quiet.optics.uncertainty * std::sqrt(loud.chi_squared),
              0.003 * loud.optics.uncertainty);
}

// Shared errors in proportion to the factors must not pull the result below all of them.
TEST(LiquidFactor, LiesAmongItsPairs) {
  const LiquidFactor f = liquid_factor(
      std::vector{pair(0.12, 1.02), pair(0.12, 1.19), pair(0.12, 0.88), pair(0.12, 1.03)});
  EXPECT_FALSE(f.consistent);
  EXPECT_GT(f.optics.relative_rise, 0.95);
  EXPECT_LT(f.optics.relative_rise, 1.10);
  EXPECT_GT(f.optics.uncertainty, 0.04);
}

TEST(LiquidFactor, RefusesWhatIsNoUnfermentedPair) {
  EXPECT_THROW((void)liquid_factor({}), Error);
  EXPECT_THROW((void)liquid_factor(std::vector{pair(0.12, 1, 8)}), Error);  // another liquid
  PairedReading water = pair(0.12, 1);
  water.density.indication = 0.998;
  EXPECT_THROW((void)liquid_factor(std::vector{water}), Error);
  PairedReading nan = pair(0.12, 1);
  nan.refraction.indication = std::nan("");
  EXPECT_THROW((void)liquid_factor(std::vector{nan}), Error);
}

}  // namespace
}  // namespace areo::calibration
