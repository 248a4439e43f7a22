// SPDX-License-Identifier: GPL-3.0-or-later
// A calibration is that of the room behind it.
#include "areo/front/calibrate.hpp"

#include <gtest/gtest.h>

#include "areo/calibration/check.hpp"
#include "areo/calibration/fit.hpp"
#include "areo/core/error.hpp"
#include "areo/front/jobs.hpp"
#include "areo/front/literals.hpp"
#include "inner.hpp"
#include "same.hpp"

namespace areo {
namespace {

calibration::CorrectionFit inner_fit() {
  calibration::HydrometerChecks checks{inner_stem().hydrometer};
  checks.add_in_water(inner_reading(1.001, 21).reading);
  checks.add_in_solution(inner_reading(1.051, 21).reading, calibration::sugar_solution(62, 438));
  const auto& h = inner_stem().hydrometer;
  return calibration::fit_correction(checks.evaluate(), h.division, h.scale_length());
}

Calibration<Hydrometer<Gravity>> front_calibration() {
  return calibrate(front_stem(), {in_water(front_stem().read(1.001_sg, 21_degC)),
                                  in_solution(front_stem().read(1.051_sg, 21_degC),
                                              weighed({.sugar = 62_g, .water = 438_g}))});
}

TEST(Calibrate, IsThatOfTheRoom) {
  const auto front = front_calibration();
  const auto inner = inner_fit();
  EXPECT_TRUE(same_knowledge(front.fit.correction, inner.correction));
  EXPECT_EQ(front.fit.reason, inner.reason);
  EXPECT_EQ(front.verdict(), calibration::judge(inner.correction, 0.002));
  EXPECT_EQ(front.instrument.identity, front_stem().identity);
  const measurement::Calibrated calibrated{inner_stem().hydrometer, inner.correction};
  const auto after = measurement::correct(calibrated, inner_reading(1.048, 27).reading, {});
  expect_same(correct(front.instrument.read(1.048_sg, 27_degC)).reading, after, "sg_20_20");
}

TEST(Calibrate, TheCorrectionAtAMarkIsThatOfTheFit) {
  const auto front = front_calibration().correction(1.050_sg);
  const auto inner = inner_fit().correction;
  EXPECT_DOUBLE_EQ(front.value().value, inner.at(1.050));
  EXPECT_NEAR(front.standard_uncertainty().value, inner.uncertainty_at(1.050), 1e-15);
}

// What the correction is off by, the reading is off by: added up, both know of each other.
TEST(Calibrate, TheCorrectionAndTheReadingErrTogether) {
  const auto calibration = front_calibration();
  const auto reading = correct(calibration.instrument.read(1.050_sg, 20_degC)).reading;
  EXPECT_GT(correlation(calibration.correction(1.050_sg), reading), 0.3);
}

TEST(Calibrate, SaltAndKilograms) {
  const ReferenceLiquid salt = weighed({.salt = 0.02_kg, .water = 0.48_kg});
  const auto inner = calibration::salt_solution(20, 480);
  EXPECT_DOUBLE_EQ(salt.solute_g, inner.solute_g);
  EXPECT_DOUBLE_EQ(salt.water_g, inner.water_g);
  EXPECT_EQ(salt.solute, inner.solute);
  EXPECT_EQ(weighed({.sugar = 62_g, .water = 438_g, .balance_division = 0.1_g}).balance_division_g,
            0.1);
  EXPECT_EQ(weighed({.sugar = 62_g, .water = 438_g}).balance_division_g, 1);
}

TEST(Calibrate, NothingWeighedIsAnError) {
  const auto check = [](const ReferenceLiquid& liquid) {
    return calibrate(front_stem(), {in_solution(front_stem().read(1.051_sg, 21_degC), liquid)});
  };
  EXPECT_THROW((void)check(weighed({.sugar = 62_g, .water = 0_g})), Error);
  EXPECT_THROW((void)check(weighed({.sugar = grams(-1), .water = 438_g})), Error);
}

TEST(Calibrate, Refractometers) {
  const auto front = calibrate(front_prism(), {in_water(front_prism().read(0.2_brix, 20_degC))});
  const auto sample = inner_refraction(0.2, 20);
  const auto& r = sample.instrument.refractometer;
  calibration::RefractometerChecks checks{r};
  checks.add_in_water(sample.reading);
  const auto inner = calibration::fit_correction(checks.evaluate(), r.division, r.hi - r.lo);
  EXPECT_TRUE(same_knowledge(front.fit.correction, inner.correction));
  EXPECT_DOUBLE_EQ(front.correction(0_brix).value().value, inner.correction.at(0));
}

TEST(Calibrate, Thermometers) {
  const Thermometer probe{.name = "probe", .division = 0.1_K};
  const Pressure station = pascals(95000);
  const auto front = calibrate(
      probe, {in_ice(probe.read(0.3_degC)), in_boiling_water(probe.read(98.4_degC), station)});
  const instruments::Thermometer t = probe.inner();
  calibration::ThermometerChecks checks{t};
  checks.add_in_ice(0.3, 0.05);
  checks.add_in_boiling_water(98.4, 0.05, station, 200);
  const auto inner = calibration::fit_correction(checks.evaluate(), 0.1, 120);
  EXPECT_TRUE(same_knowledge(front.fit.correction, inner.correction));
  EXPECT_DOUBLE_EQ(front.correction(27_degC).value().value(), inner.correction.at(27));
  EXPECT_EQ(front.verdict(), calibration::judge(inner.correction, 0.1));
  EXPECT_THROW((void)calibrate(probe, {in_ice(celsius(0.3))}), Error);  // read with none by name
}

TEST(Calibrate, AnotherInstrumentsCheckIsRefused) {
  const Hydrometer<Gravity> another = [] {
    Hydrometer<Gravity> h = front_stem();
    h.identity = Identity{};
    return h;
  }();
  try {
    (void)calibrate(front_stem(), {in_water(another.read(1.001_sg, 21_degC))});
    FAIL() << "no error";
  } catch (const Error& e) {
    EXPECT_EQ(e.code, Errc::inconsistent);
  }
  EXPECT_THROW((void)calibrate(front_stem(), {}), Error);
}

}  // namespace
}  // namespace areo
