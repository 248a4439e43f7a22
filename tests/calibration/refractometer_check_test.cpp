// SPDX-License-Identifier: GPL-3.0-or-later
#include <gtest/gtest.h>

#include <cmath>

#include "areo/calibration/check.hpp"
#include "areo/calibration/fit.hpp"
#include "areo/core/error.hpp"

namespace areo::calibration {
namespace {

using instruments::Refractometer;
using instruments::RefractometerReading;

RefractometerReading reading(double brix, double t_c) {
  RefractometerReading r;
  r.indication = brix;
  r.temperature.indication_c = t_c;
  return r;
}
Check in_water(const Refractometer& r, double brix, double t_c) {
  RefractometerChecks checks{r};
  checks.add_in_water(reading(brix, t_c));
  return checks.evaluate().checks.at(0);
}

// Water shows zero at 20 °C only. [itct1936] at 0 %: 0.50 to subtract at 10 °C, 0.27 at 15 °C, 0.33
// to add at 25 °C, 0.72 at 30 °C; within the 0.03 that the models are stated to agree.
TEST(RefractometerCheck, KnowsWhatWaterShouldShow) {
  const Refractometer r{.name = "prism"};
  EXPECT_NEAR(in_water(r, 0, 20).expected.estimate, 0, 1e-9);
  EXPECT_NEAR(in_water(r, 0.4, 10).expected.estimate, 0.50, 0.03);
  EXPECT_NEAR(in_water(r, 0.2, 15).expected.estimate, 0.27, 0.03);
  EXPECT_NEAR(in_water(r, 0, 25).expected.estimate, -0.33, 0.03);
  EXPECT_NEAR(in_water(r, 0, 30).expected.estimate, -0.72, 0.03);
  EXPECT_NEAR(in_water(r, 0, 25).correction.estimate, -0.33, 0.03);  // it shows too much
}

TEST(RefractometerCheck, ACompensatedOneShowsZeroWithADoubt) {
  const Refractometer r{.name = "prism", .compensated = true};
  const Check c = in_water(r, 0.2, 26);
  EXPECT_NEAR(c.expected.estimate, 0, 1e-9);
  EXPECT_NEAR(c.correction.estimate, -0.2, 1e-9);
  // Half a division triangular, a division of compensation rectangular, 3e-6 of index, which is
  // 0.002 Brix; its last digit moves the sum by less than 1e-4.
  EXPECT_NEAR(c.correction.u, std::hypot(0.1 / std::sqrt(6.0), 0.2 / std::sqrt(3.0), 0.002), 1e-4);
}

TEST(RefractometerCheck, SugarIsWhatWasWeighed) {
  RefractometerChecks checks{{.name = "prism"}};
  const WeighedSolution s = sugar_solution(50, 450, 0.1);
  checks.add_in_solution(reading(10, 20), s);
  const Check c = checks.evaluate().checks.at(0);
  uncertainty::Inputs in;
  const SolutionInputs weighed{in, s};
  const auto x = in.estimates();
  EXPECT_NEAR(c.expected.estimate, 100 * weighed.fraction(uncertainty::Point{x}), 1e-8);
  EXPECT_EQ(c.label, "sugar 50 g + 450 g water");
}

TEST(RefractometerCheck, SolutionsOfOneBagErrTogether) {
  RefractometerChecks checks{{.name = "prism"}};
  checks.add_in_solution(reading(10, 20), sugar_solution(50, 450, 0.1));
  checks.add_in_solution(reading(20, 20), sugar_solution(100, 400, 0.1));
  const CheckSet set = checks.evaluate();
  // Purity and moisture move 10 % and 20 % by the same share; the sugar in them is 9.98 % and
  // 19.96 %, hence 0.4 %.
  const double share2 = std::pow(0.003 / std::sqrt(12.0), 2) + std::pow(0.001 / std::sqrt(12.0), 2);
  // The balance is within 0.1 g of a line at the solute and at the water, of 500 g in all: in
  // percent 0.2 a gram of the part that it changes.
  const double u_line = 0.1 / std::sqrt(3.0) * 100 / 500;
  const double balance = u_line * u_line * (0.9 * 0.8 + 0.1 * 0.2);
  const double expected = share2 * 10 * 20 + balance;
  EXPECT_NEAR(set.covariance(0, 1), expected, 0.004 * expected);
}

TEST(RefractometerCheck, TheFitIsTheHydrometers) {
  RefractometerChecks checks{{.name = "prism"}};
  checks.add_in_water(reading(0.6, 20));
  checks.add_in_solution(reading(10.6, 20), sugar_solution(50, 450, 0.1));
  checks.add_in_solution(reading(20.6, 20), sugar_solution(100, 400, 0.1));
  const CorrectionFit f = fit_correction(checks.evaluate(), 0.2, 32);
  EXPECT_FALSE(f.slope_used);
  EXPECT_TRUE(f.consistent);
  // Against the weighed 0, 9.98 and 19.96 % it shows 0.60, 0.62 and 0.64 too much.
  EXPECT_NEAR(f.correction.at(10), -0.62, 0.02);
  EXPECT_EQ(judge(f.correction, 0.2), Conformity::outside);
}

TEST(RefractometerCheck, Refusals) {
  RefractometerChecks checks{{.name = "prism"}};
  EXPECT_THROW(checks.add_in_water(reading(-0.2, 20)), Error);
  EXPECT_THROW(checks.add_in_water(reading(std::nan(""), 20)), Error);
  EXPECT_THROW(checks.add_in_solution(reading(10, 20), salt_solution(50, 450)), Error);
  RefractometerChecks cold{{.name = "prism"}};
  EXPECT_THROW(cold.add_in_water(reading(0.4, 9)), Error);
}

}  // namespace
}  // namespace areo::calibration
