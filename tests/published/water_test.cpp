// SPDX-License-Identifier: GPL-3.0-or-later
// Density of water against tables/water-density.csv.
#include "areo/physics/water.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <tuple>

#include "areo/core/error.hpp"
#include "areo/physics/mixture.hpp"
#include "areo/physics/sucrose.hpp"
#include "rows.hpp"

namespace areo::published {
namespace {

class WaterTable : public RowTest {};

// Each of the two formulas states 1e-6, 0.001 kg/m³; the cells are rounded on top.
constexpr double tanaka_iapws_agreement = 0.002;

TEST_P(WaterTable, Density) {
  const double t_c = row().number("t_c");
  if (t_c > physics::water_range.hi) {
    EXPECT_TRUE(row().empty("rho_tanaka2001_kg_m3"));
    EXPECT_THROW((void)physics::water_density(celsius_point(t_c)), Error);
    return;
  }
  const double rho = physics::water_density(celsius_point(t_c)).value();
  const auto tanaka = row()["rho_tanaka2001_kg_m3"];
  EXPECT_NEAR(rho, tanaka.value, tanaka.half_digit);
  const auto iapws = row()["rho_iapws95_kg_m3"];
  EXPECT_NEAR(rho, iapws.value, tanaka_iapws_agreement + iapws.half_digit);
}

TEST_P(WaterTable, WaterOfTheSugarFormula) {
  const auto expected = row()["rho_sps4_water_kg_m3"];
  EXPECT_NEAR(
      physics::sucrose_density(ExtractFraction{0}, celsius_point(row().number("t_c"))).value(),
      expected.value, expected.half_digit);
}

// The water of readings: as [tanaka2001] to 40 °C, above it on the water of [sps4], higher by what
// lies between the two at 40 °C. models.md states how far below [iapws95] that is.
TEST_P(WaterTable, WaterOfReadings) {
  const double t_c = row().number("t_c");
  if (t_c > physics::mixture_temperature_range.hi) {
    EXPECT_THROW((void)physics::density(physics::Liquid{}, celsius_point(t_c)), Error);
    return;
  }
  const double rho = physics::density(physics::Liquid{}, celsius_point(t_c)).value();
  if (t_c <= physics::water_range.hi) {
    EXPECT_EQ(rho, physics::water_density(celsius_point(t_c)).value());
    return;
  }
  constexpr double least_below = 0.0012, most_below = 0.0024;
  const auto iapws = row()["rho_iapws95_kg_m3"];
  EXPECT_LE(rho, iapws.value - least_below + iapws.half_digit);
  EXPECT_GE(rho, iapws.value - most_below - iapws.half_digit);
  const auto sps4 = row()["rho_sps4_water_kg_m3"];
  EXPECT_NEAR(rho - sps4.value, 0.00335, sps4.half_digit + 0.5e-5);
}

INSTANTIATE_TEST_SUITE_P(WaterDensity, WaterTable, testing::ValuesIn(rows_of("water-density")),
                         line_name);

// [tanaka2001], evaluated independently to five decimals.
TEST(Water, SpotValues) {
  for (const auto& [t_c, rho] :
       {std::tuple{3.5, 999.97308}, {17.3, 998.72512}, {22.5, 997.65815}, {37.5, 993.14813}})
    EXPECT_NEAR(physics::water_density(celsius_point(t_c)).value(), rho, 0.5e-5) << t_c;
}

TEST(Water, OneUlpOutsideIsRefused) {
  constexpr double inf = std::numeric_limits<double>::infinity();
  constexpr double lo = 0, hi = 40;  // as [tanaka2001] states them
  EXPECT_NO_THROW((void)physics::water_density(celsius_point(lo)));
  EXPECT_NO_THROW((void)physics::water_density(celsius_point(hi)));
  for (const double t_c : {std::nextafter(lo, -inf), std::nextafter(hi, inf)}) try {
      (void)physics::water_density(celsius_point(t_c));
      ADD_FAILURE() << t_c << " was accepted";
    } catch (const Error& e) {
      EXPECT_EQ(e.code, Errc::domain);
    }
}

}  // namespace
}  // namespace areo::published
