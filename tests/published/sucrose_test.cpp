// SPDX-License-Identifier: GPL-3.0-or-later
// Density of sugar solutions: digit by digit against the formula's own table. How far it is from
// other tables: agreement_test.cpp.
#include "areo/physics/sucrose.hpp"

#include <gtest/gtest.h>

#include <array>
#include <string>
#include <string_view>
#include <tuple>

#include "areo/core/error.hpp"
#include "areo/physics/mixture.hpp"
#include "areo/physics/scale.hpp"
#include "areo/physics/water.hpp"
#include "rows.hpp"

namespace areo::published {
namespace {

double source_density(double w, double t_c) {
  return physics::sucrose_density(ExtractFraction{w}, celsius_point(t_c)).value();
}
double drink_density(double w, double t_c) {
  return physics::density({ExtractFraction{w}}, celsius_point(t_c)).value();
}

// physics::density() stands on [tanaka2001]'s water and lies above the source by this much at most.
constexpr double one_water_kg_m3 = 0.006;

class SucroseFormulaTable : public RowTest {};

TEST_P(SucroseFormulaTable, EveryDigit) {
  const double w = row().number("mass_percent") / 100;
  for (const int t_c : {0, 5, 10, 15, 20, 25, 30, 35, 40, 50, 60}) {
    const auto expected = row()["rho_t" + std::to_string(t_c)];
    EXPECT_NEAR(source_density(w, t_c), expected.value, expected.half_digit) << t_c << " °C";
    EXPECT_NEAR(drink_density(w, t_c), expected.value, one_water_kg_m3 + expected.half_digit)
        << t_c << " °C";
  }
}
INSTANTIATE_TEST_SUITE_P(SucroseDensityByTemperature, SucroseFormulaTable,
                         testing::ValuesIn(rows_of("sucrose-density-by-temperature")), line_name);

class SucroseNbsTable : public RowTest {};

TEST_P(SucroseNbsTable, RefusedBeyondTheFormula) {
  const double brix = row().number("brix");
  if (brix <= 100 * physics::sucrose_fraction_range.hi) {
    EXPECT_NO_THROW((void)drink_density(brix / 100, 20));
    return;
  }
  EXPECT_THROW((void)source_density(brix / 100, 20), Error);
  EXPECT_THROW((void)drink_density(brix / 100, 20), Error);
}
// Apparent gravity without the detour through a derived column: half a digit, and three standard
// uncertainties of the density; 1 kg/m³ is 1/997.007.
TEST_P(SucroseNbsTable, ApparentGravityScale) {
  const double brix = row().number("brix");
  if (brix > 40) return;  // the range of hydrometers for fermenting drinks
  const physics::Liquid liquid{ExtractFraction{brix / 100}};
  const auto printed = row()["sg_apparent_20_20"];
  EXPECT_NEAR(physics::mark_from_liquid(physics::apparent_sg_20_20, liquid), printed.value,
              printed.half_digit + 3 * physics::density_model_uncertainty(liquid) / 997.007);
}
INSTANTIATE_TEST_SUITE_P(SucroseDensity20C, SucroseNbsTable,
                         testing::ValuesIn(rows_of("sucrose-density-20c")), line_name);

// [sps4], evaluated independently to four decimals.
TEST(Sucrose, SpotValues) {
  for (const auto& [w, t_c, rho] : {std::tuple{0.0, 20.0, 998.2031},
                                    {0.125, 17.3, 1049.2278},
                                    {0.255, 25.0, 1104.1649},
                                    {0.455, 12.5, 1208.3235},
                                    {0.60, 45.0, 1273.4720}})
    EXPECT_NEAR(source_density(w, t_c), rho, 0.5e-4) << w << " at " << t_c << " °C";
}

// A statement of the sugar industry: apparent gravity 20/20 of 1.040 is 9.99249 %; the formula
// gives 9.9923, as stated with it, and areo's one water changes no printed digit.
TEST(Sucrose, ApparentGravity1040) {
  const auto liquid = physics::liquid_from_mark(physics::apparent_sg_20_20, 1.040);
  EXPECT_NEAR(100 * liquid.extract.value(), 9.9923, 0.5e-4);
  EXPECT_NEAR(100 * liquid.extract.value(), 9.99249, 2e-4);
}

// The two functions differ by their water and by nothing else.
TEST(Sucrose, OneWater) {
  for (double t_c = 0; t_c <= 40; t_c += 2.5) {
    const double water =
        physics::water_density(celsius_point(t_c)).value() - source_density(0, t_c);
    EXPECT_GT(water, 0.002) << t_c;
    EXPECT_LT(water, one_water_kg_m3) << t_c;
    for (double w = 0; w <= 0.85; w += 0.05)
      EXPECT_NEAR(drink_density(w, t_c) - source_density(w, t_c), water, 1e-9) << w << ' ' << t_c;
  }
  // Above 40 °C both waters are the source's, apart by what they are at 40 °C.
  const double at_40 = physics::water_density(celsius_point(40)).value() - source_density(0, 40);
  for (double t_c = 40.5; t_c <= 85; t_c += 0.5)
    for (double w = 0; w <= 0.85; w += 0.05)
      EXPECT_NEAR(drink_density(w, t_c) - source_density(w, t_c), at_40, 1e-9) << w << ' ' << t_c;
}

}  // namespace
}  // namespace areo::published
