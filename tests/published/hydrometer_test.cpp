// SPDX-License-Identifier: GPL-3.0-or-later
// Hydrometers away from their reference temperature, against tables/. Corrections of Brix
// hydrometers, sugar and glass together: agreement_test.cpp.
#include "areo/instruments/hydrometer.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <string>

#include "areo/physics/mixture.hpp"
#include "areo/physics/water.hpp"
#include "rows.hpp"

namespace areo::published {
namespace {

using instruments::Hydrometer;

Hydrometer hydrometer(const physics::Scale& scale) {
  Hydrometer h;
  h.scale = scale;
  return h;
}

class WaterCheck : public RowTest {};

TEST_P(WaterCheck, IdealIndication) {
  // The row 15.56 stands for 60 °F: its density is that of 15.5556 °C.
  const Temperature t = row().text("t_degC") == "15.56" ? celsius_point(sixty_fahrenheit_c)
                                                        : celsius_point(row().number("t_degC"));
  const Density rho = physics::water_density(t);
  const auto water = row()["rho_w_kg_m3"];
  EXPECT_NEAR(rho.value(), water.value, water.half_digit);
  const auto expect_shows = [&](const char* column, const physics::Scale& scale) {
    const auto expected = row()[column];
    EXPECT_NEAR(instruments::ideal_indication(hydrometer(scale), rho, t), expected.value,
                expected.half_digit)
        << column;
  };
  expect_shows("reading_density_20", physics::density_20);
  expect_shows("reading_sg_20_20", physics::sg_20_20);
  expect_shows("reading_sg_60_60F", physics::specific_gravity_scale<Ref60F>());
  expect_shows("reading_sg_20_4", physics::specific_gravity_scale<Ref20_4>());
}
INSTANTIATE_TEST_SUITE_P(HydrometerWaterCheck, WaterCheck,
                         testing::ValuesIn(rows_of("hydrometer-water-check")), line_name);

class GlassTable : public RowTest {};

// The column rho_api_kg_m3 is another model (soda-lime glass with a quadratic term), not areo's.
TEST_P(GlassTable, DensityAtTheLiquidsTemperature) {
  Hydrometer h = hydrometer({physics::ScaleKind::density, row().number("t_ref_degC")});
  h.glass_expansion_per_c = row().number("gamma_per_degC");
  const Temperature t = celsius_point(row().number("t_degC"));
  const double mark = row().number("R_kg_m3");
  const auto exact = row()["rho_exact_kg_m3"];
  const Density rho = instruments::density_from_indication(h, mark, t);
  EXPECT_NEAR(rho.value(), exact.value, exact.half_digit);
  EXPECT_NEAR(instruments::ideal_indication(h, rho, t), mark, 1e-9);
  // The linear form is first order: apart by no more than its square.
  const double x = h.glass_expansion_per_c * (row().number("t_degC") - row().number("t_ref_degC"));
  const auto linear = row()["corr_linear_kg_m3"];
  EXPECT_NEAR(rho.value() - mark, linear.value, linear.half_digit + 1.01 * mark * x * x + 1e-9);
}
INSTANTIATE_TEST_SUITE_P(HydrometerTemperatureCorrection, GlassTable,
                         testing::ValuesIn(rows_of("hydrometer-temperature-correction")),
                         line_name);

// Soda-lime glass with a quadratic term [astm-d1298] lies within what is left open of the
// conventional value wherever it is warmer than its reference, also over the 70 °C that its form is
// continued to here. Both columns are rounded to 0.0001 kg/m³.
TEST_P(GlassTable, SodaLimeLiesWithinTheSpread) {
  const double away_c = row().number("t_degC") - row().number("t_ref_degC");
  if (row().empty("rho_api_kg_m3") || away_c < 0) return;
  const double spread = instruments::glass_expansion_half_width_per_c * std::abs(away_c);
  const auto api = row()["rho_api_kg_m3"];
  EXPECT_NEAR(row().number("rho_exact_kg_m3") / api.value, 1, spread + 1e-7);
}
TEST(Glass, SodaLimeLiesWithinTheSpreadTo85C) {
  constexpr double away_c = 85 - 15;
  constexpr double soda_lime = 1 - 23e-6 * away_c - 2e-8 * away_c * away_c;
  constexpr double spread = instruments::glass_expansion_half_width_per_c * away_c;
  EXPECT_NEAR(1 / (1 + instruments::conventional_glass_expansion_per_c * away_c), soda_lime,
              spread);
}

}  // namespace
}  // namespace areo::published
