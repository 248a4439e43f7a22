// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/calibration/check.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "areo/calibration/drift.hpp"
#include "areo/calibration/fit.hpp"
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

Check in_water(const Hydrometer& h, const HydrometerReading& r) {
  HydrometerChecks checks{h};
  checks.add_in_water(r);
  return checks.evaluate().checks.at(0);
}
Check in_solution(const Hydrometer& h, const HydrometerReading& r, const WeighedSolution& s) {
  HydrometerChecks checks{h};
  checks.add_in_solution(r, s);
  return checks.evaluate().checks.at(0);
}

// Clean water at 20 °C on four scale types: a reading below 1.000 need not be an error.
TEST(WaterCheck, KnowsWhatTheScaleShouldShow) {
  const auto expected = [](const physics::Scale& s, double indication) {
    return in_water(with_scale(s), reading(indication, 20)).expected.estimate;
  };
  EXPECT_NEAR(expected(physics::sg_20_20, 1.0), 1.000000, 5e-7);
  EXPECT_NEAR(expected(physics::specific_gravity_scale<Ref60F>(), 1.0), 0.999300, 5e-7);
  EXPECT_NEAR(expected(physics::specific_gravity_scale<Ref20_4>(), 1.0), 0.998232, 5e-7);
  EXPECT_NEAR(expected(physics::density_20, 1000), 998.2067, 5e-5);
}

TEST(WaterCheck, CorrectionIsWhatHasToBeAdded) {
  const Check c = in_water(with_scale(physics::sg_20_20), reading(1.002, 20));
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
    EXPECT_NEAR(in_solution(h, reading(shows, 20), s).correction.estimate, 0, 1e-6);
}

TEST(Certificate, ExpandedUncertaintyIsDividedByItsFactor) {
  HydrometerChecks checks{with_scale(physics::sg_20_20)};
  checks.add_certificate_point(1.040, -0.0004, 0.0006, 2);
  const Check c = checks.evaluate().checks.at(0);
  EXPECT_NEAR(c.correction.u, 0.0003, 1e-15);
  EXPECT_DOUBLE_EQ(c.expected.estimate, 1.0396);
  EXPECT_THROW(checks.add_certificate_point(1.04, 0, 0, 2), Error);
  EXPECT_THROW(checks.add_certificate_point(1.04, 0, 0.001, 0.5), Error);
  EXPECT_THROW(checks.add_certificate_point(std::nan(""), 0, 0.001, 2), Error);
  EXPECT_THROW(checks.add_certificate_point(1.04, 0.0201, 0.001, 2), Error);  // ten of 0.002
  EXPECT_NO_THROW(checks.add_certificate_point(1.04, -0.0199, 0.001, 2));
}

TEST(Thermometer, FixedPoints) {
  const auto ice = [](double shown) {
    ThermometerChecks checks{{.name = "probe"}};
    checks.add_in_ice(shown, 0.1);
    return checks.evaluate().checks.at(0);
  };
  const auto boiling = [](double shown, Pressure p, double known_to_pa) {
    ThermometerChecks checks{{.name = "probe"}};
    checks.add_in_boiling_water(shown, 0.5, p, known_to_pa);
    return checks.evaluate().checks.at(0);
  };
  EXPECT_NEAR(ice(0.4).correction.estimate, -0.4, 1e-12);
  const Check normal = boiling(99, pascals(101325), barometer_half_width_pa);
  EXPECT_NEAR(normal.expected.estimate, 99.9743, 5e-5);
  EXPECT_NEAR(normal.correction.estimate, 0.9743, 5e-5);
  // A barometer leaves 0.032 °C, superheat and stem 0.2 °C / sqrt(3).
  EXPECT_NEAR(normal.expected.u, std::hypot(0.032, 0.2 / std::sqrt(3.0)), 5e-4);
  // Altitude alone: weather of ± 2 kPa is about ± 0.58 °C there.
  const Check high = boiling(98, physics::standard_pressure(metres(500)), weather_half_width_pa);
  EXPECT_NEAR(high.expected.estimate, 98.3125, 5e-4);
  const Pressure there = physics::standard_pressure(metres(500));
  const double per_pa = (physics::boiling_point(there + pascals(1000)).celsius() -
                         physics::boiling_point(there - pascals(1000)).celsius()) /
                        2000;
  EXPECT_NEAR(high.expected.u, std::hypot(2000 * per_pa, boiling_half_width_c) / std::sqrt(3.0),
              1e-3);
  EXPECT_THROW((void)ice(200), Error);
  EXPECT_THROW((void)ice(std::nan("")), Error);
}

// In gravity, at 1.000: ± 6.2 mN/m on a stem of 5 mm and 25 g, rectangular.
double made_for_u() {
  constexpr double of_the_weight = std::numbers::pi * 0.005 / (0.025 * 9.80665);  // of 1 N/m
  return of_the_weight * 0.0062 / std::sqrt(3.0) / (1 + of_the_weight * 0.0727);
}

// Two sugar solutions of one bag of sugar: the purity moves both the same way, the balance does
// not. The covariance is the product of what purity, moisture and formula do to each.
TEST(CheckSet, SolutionsOfOneSoluteErrTogether) {
  const Hydrometer h = with_scale(physics::sg_20_20);
  const WeighedSolution thin = sugar_solution(52, 448, 0.1);
  const WeighedSolution thick = sugar_solution(100, 400, 0.1);
  const auto covariance = [&](const WeighedSolution& a, const WeighedSolution& b) {
    HydrometerChecks checks{h};
    checks.add_in_solution(reading(1.042, 20), a);
    checks.add_in_solution(reading(1.082, 20), b);
    return checks.evaluate().covariance;
  };
  const auto v = covariance(thin, thick);
  // Purity within 0.997 .. 1 and moisture within 0 .. 0.001 move the gravity above water
  // (0.0413, 0.0826) by that share; glass plays no part at 20 °C. The formula adds to that.
  const double share2 = std::pow(0.003 / std::sqrt(12.0), 2) + std::pow(0.001 / std::sqrt(12.0), 2);
  EXPECT_GT(v(0, 1), 0.95 * share2 * 0.0413 * 0.0826);
  EXPECT_EQ(v(0, 1), v(1, 0));
  EXPECT_LT(v(0, 1), std::sqrt(v(0, 0) * v(1, 1)));
  // Salt is another matter, and so is sugar of another quality; the balance and what the scale was
  // made for stay.
  WeighedSolution other = thick;
  other.purity_lo = 0.99;
  other.balance_division_g = 0.2;
  const double made_for = std::pow(made_for_u(), 2);
  EXPECT_NEAR(covariance(thin, other)(0, 1) / (1.04 * 1.08), made_for, 0.02 * made_for);
  WeighedSolution salt = salt_solution(55, 445, 0.3);
  EXPECT_NEAR(covariance(thin, salt)(0, 1) / (1.04 * 1.08), made_for, 0.02 * made_for);
}

// The balance's line is off by the same at each solute: a gram of it in 500 g is 0.002 of the mass,
// 0.0083 of gravity a hundredth of sugar.
TEST(CheckSet, SolutionsOfOneBalanceErrTogether) {
  const auto covariance = [](double division_g) {
    HydrometerChecks checks{with_scale(physics::sg_20_20)};
    WeighedSolution solution = sugar_solution(50, 450, 1);
    checks.add_in_solution(reading(1.040, 20), solution);
    solution.balance_division_g = division_g;
    checks.add_in_solution(reading(1.040, 20), solution);
    return checks.evaluate().covariance(0, 1);
  };
  // d rho / d w is 4.13 kg/m³ a percent at 10 % by [sps4]; of the solute 0.9 and of the water 0.1 g
  // in 500 g count.
  const double per_gram = 0.413 / 0.9982 * std::hypot(450, 50) / (500 * 500);
  const double u2 = per_gram * per_gram / 3;
  EXPECT_NEAR(covariance(1) - covariance(0.999), u2, 0.02 * u2);
}

// Tap water counts as such in every check, and once.
TEST(CheckSet, SolidsOfTheWaterAreShared) {
  const auto of = [](Water water) {
    HydrometerChecks checks{with_scale(physics::sg_20_20)};
    checks.add_in_water(reading(1.000, 20), water);
    checks.add_in_solution(reading(1.040, 20), sugar_solution(50, 450), water);
    return checks.evaluate();
  };
  const CheckSet pure = of(Water::pure), tap = of(Water::tap);
  EXPECT_NEAR(tap.checks[0].expected.estimate - pure.checks[0].expected.estimate, 0.0003, 1e-6);
  const double u = 0.0006 / std::sqrt(12.0);
  EXPECT_NEAR(tap.covariance(0, 1) - pure.covariance(0, 1), u * u, 0.01 * u * u);
}

// Repeats in one water do not tell what the scale was made for, nor do other clean liquids.
TEST(CheckSet, CleanLiquidsShareWhatTheScaleWasMadeFor) {
  HydrometerChecks checks{with_scale(physics::sg_20_20)};
  for (int i = 0; i < 3; ++i) checks.add_in_water(reading(1.001, 20));
  checks.add_in_solution(reading(1.041, 20), salt_solution(27, 473));
  const auto v = checks.evaluate().covariance;
  const double u = made_for_u();
  EXPECT_NEAR(v(0, 2), u * u, 2e-3 * u * u);
  EXPECT_NEAR(v(0, 3), 1.04 * u * u, 5e-3 * u * u);
}

// Two certificates, years apart, have nothing in common but the instrument.
TEST(CheckSet, PointsOfTwoCertificatesDoNot) {
  HydrometerChecks checks{with_scale(physics::sg_20_20)};
  checks.add_certificate_point(1.00, -0.0004, 0.0003, 2, "2024");
  checks.add_certificate_point(1.00, -0.0006, 0.0003, 2, "2026");
  const CheckSet set = checks.evaluate();
  EXPECT_EQ(set.covariance(0, 1), 0);
  const std::vector<std::size_t> before{0}, after{1};
  const Drift d = drift(set, before, after, 0.002, 0.11);
  EXPECT_NEAR(d.points.at(0).u, 0.00015 * std::sqrt(2.0), 1e-12);
  EXPECT_EQ(d.verdict, DriftVerdict::none_seen);
}

// Kept apart in the correction, so that a reading can take it back; in the check's ± all the same.
TEST(CheckSet, ACorrectionKnowsItsPartOfThat) {
  HydrometerChecks checks{with_scale(physics::sg_20_20)};
  checks.add_in_water(reading(1.001, 20));
  const CheckSet set = checks.evaluate();
  const instruments::Correction c = fit_correction(set, 0.002, 0.11).correction;
  EXPECT_NEAR(std::abs(c.u_surface), made_for_u(), 1e-3 * made_for_u());
  EXPECT_NEAR(std::hypot(c.u_offset, c.u_surface), set.checks[0].correction.u, 1e-15);
  EXPECT_NEAR(c.uncertainty_at(1.001), set.checks[0].correction.u, 1e-15);
}

// One laboratory, one method: five points of ± 0.0003 leave ± 0.0003, unless they are apart.
TEST(CheckSet, PointsOfACertificateErrTogether) {
  const auto u_of = [](bool apart) {
    HydrometerChecks checks{with_scale(physics::sg_20_20)};
    for (const double mark : {1.00, 1.02, 1.04, 1.06, 1.08})
      checks.add_certificate_point(mark, 0, 0.0003, 2, apart ? "" : "the certificate");
    const CheckSet set = checks.evaluate();
    return 2 * fit_correction(set, 0.002, 0.11).correction.u_offset;
  };
  EXPECT_NEAR(u_of(false), 0.0003, 1e-12);
  EXPECT_NEAR(u_of(true), 0.0003 / std::sqrt(5.0), 1e-12);
}

TEST(CheckSet, ANamedThermometerAndTheMeniscusAreShared) {
  const auto covariance = [](bool named, instruments::Meniscus meniscus) {
    HydrometerChecks checks{with_scale(physics::sg_20_20)};
    const instruments::Thermometer probe{.name = "probe"};
    for (const double shown : {1.000, 1.001}) {
      HydrometerReading r = reading(shown, 22);
      r.meniscus = meniscus;
      if (named) {
        r.temperature.thermometer = probe;
        r.temperature.correction = instruments::Correction{.u_offset = 0.3, .provenance = "test"};
      }
      checks.add_in_water(r);
    }
    return checks.evaluate().covariance(0, 1);
  };
  using enum instruments::Meniscus;
  // What the scale was made for; the glass, two degrees off, is nothing.
  const double base = covariance(false, level);
  EXPECT_NEAR(base, made_for_u() * made_for_u(), 3e-3 * base);
  // Water falls from 997.9948 kg/m³ at 21 °C to 997.5412 at 23 °C [tanaka2001]; less the glass.
  const double u = ((997.9948 - 997.5412) / 2 - 0.025) / 998.2 * 0.3;
  EXPECT_NEAR(covariance(true, level) - base, u * u, 0.005 * u * u);  // last digits of the four
  // 0.4 divisions either way, rectangular: both readings from the top of the meniscus.
  const double height = 0.4 * 0.002 / std::sqrt(3.0);
  EXPECT_NEAR(covariance(false, top) - base, height * height, 1e-12);
}

TEST(Check, RefusesReadingsOffTheScaleAndFrozenWater) {
  EXPECT_THROW((void)in_water(with_scale(physics::sg_20_20), reading(1.5, 20)), Error);
  EXPECT_THROW((void)in_water(with_scale(physics::sg_20_20), reading(1.0, -5)), Error);
  EXPECT_THROW((void)in_water(with_scale(physics::sg_20_20), reading(1.0, 45)), Error);
}

}  // namespace
}  // namespace areo::calibration
