#include "areo/calibration/check.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "areo/core/error.hpp"
#include "areo/physics/boiling.hpp"

namespace areo::calibration {
namespace {

using instruments::Hydrometer;
using instruments::HydrometerReading;

HydrometerReading reading(double indication, double t_c) {
  HydrometerReading r;
  r.indication = indication;
  r.temperature.indication_c = t_c;
  return r;
}

Hydrometer with_scale(const physics::Scale& scale) {
  Hydrometer h = instruments::ordinary_hydrometer(scale);
  h.name = "stem";
  return h;
}

// Clean water at 20 °C on four scale types: a reading below 1.000 need not be an error.
TEST(WaterCheck, KnowsWhatTheScaleShouldShow) {
  const auto expected = [](const physics::Scale& s, double indication) {
    return check_in_water(with_scale(s), reading(indication, 20)).expected.estimate;
  };
  EXPECT_NEAR(expected(physics::sg_20_20, 1.0), 1.000000, 5e-7);
  EXPECT_NEAR(expected(physics::specific_gravity_scale<Ref60F>(), 1.0), 0.999300, 5e-7);
  EXPECT_NEAR(expected(physics::specific_gravity_scale<Ref20_4>(), 1.0), 0.998232, 5e-7);
  EXPECT_NEAR(expected(physics::density_20, 1000), 998.2067, 5e-5);
}

TEST(WaterCheck, CorrectionIsWhatHasToBeAdded) {
  const Check c = check_in_water(with_scale(physics::sg_20_20), reading(1.002, 20));
  EXPECT_NEAR(c.correction.estimate, -0.002, 1e-9);
  // Half a division triangular, surface tension, temperature 0.21 kg/m³ per °C.
  const double eye = 0.001 / std::sqrt(6.0);
  const double surface = 0.4 / 998.2067 / std::sqrt(3.0);
  const double warm = 0.5 / std::sqrt(3.0) * (0.2067 - 0.025) / 998.2;
  EXPECT_NEAR(c.correction.u, std::hypot(eye, surface, warm), 2e-6);
}

TEST(SolutionCheck, SugarAndSaltAgreeOnAGoodInstrument) {
  const Hydrometer h = with_scale(physics::sg_20_20);
  const WeighedSolution sugar =
      weigh_in(sugar_solution(1, 1), 500, kg_per_m3(1040), celsius_point(20));
  const WeighedSolution salt =
      weigh_in(salt_solution(1, 1), 500, kg_per_m3(1040), celsius_point(20));
  const double shows = 1040 / 998.2067;
  for (const WeighedSolution& s : {sugar, salt})
    EXPECT_NEAR(check_in_solution(h, reading(shows, 20), s).correction.estimate, 0, 1e-6);
}

TEST(Certificate, ExpandedUncertaintyIsDividedByItsFactor) {
  const Check c = certificate_point(1.040, -0.0004, 0.0006, 2);
  EXPECT_DOUBLE_EQ(c.correction.u, 0.0003);
  EXPECT_DOUBLE_EQ(c.expected.estimate, 1.0396);
  EXPECT_THROW((void)certificate_point(1.04, 0, 0, 2), Error);
  EXPECT_THROW((void)certificate_point(1.04, 0, 0.001, 0.5), Error);
  EXPECT_THROW((void)certificate_point(std::nan(""), 0, 0.001, 2), Error);
}

TEST(Thermometer, FixedPoints) {
  const instruments::Thermometer t{.name = "probe"};
  EXPECT_NEAR(check_in_ice(t, 0.4, 0.1).correction.estimate, -0.4, 1e-12);
  const Check boiling =
      check_in_boiling_water(t, 99, 0.5, pascals(101325), barometer_half_width_pa);
  EXPECT_NEAR(boiling.expected.estimate, 99.9743, 5e-5);
  EXPECT_NEAR(boiling.correction.estimate, 0.9743, 5e-5);
  // Altitude alone: weather of ± 2 kPa is about ± 0.55 °C, u about 0.3 °C.
  const Check high = check_in_boiling_water(t, 98, 0.5, physics::standard_pressure(metres(500)),
                                            weather_half_width_pa);
  EXPECT_NEAR(high.expected.estimate, 98.3125, 5e-4);
  EXPECT_NEAR(high.expected.u, 0.3, 0.05);
  EXPECT_THROW((void)check_in_ice(t, 200, 0.1), Error);
  EXPECT_THROW((void)check_in_ice(t, std::nan(""), 0.1), Error);
}

TEST(Check, RefusesReadingsOffTheScaleAndFrozenWater) {
  EXPECT_THROW((void)check_in_water(with_scale(physics::sg_20_20), reading(1.5, 20)), Error);
  EXPECT_THROW((void)check_in_water(with_scale(physics::sg_20_20), reading(1.0, -5)), Error);
  EXPECT_THROW((void)check_in_water(with_scale(physics::sg_20_20), reading(1.0, 45)), Error);
}

}  // namespace
}  // namespace areo::calibration
