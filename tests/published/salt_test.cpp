// SPDX-License-Identifier: GPL-3.0-or-later
// Sodium chloride solutions: the formula digit by digit. Against a handbook: agreement_test.cpp.
#include "areo/physics/salt.hpp"

#include <gtest/gtest.h>

#include <string>
#include <tuple>

#include "areo/physics/water.hpp"
#include "rows.hpp"

namespace areo::published {
namespace {

double salt(double w, double t_c) {
  return physics::salt_density(SaltFraction{w}, celsius_point(t_c)).value();
}

// Water of [laliberte2009], kg/m³; areo puts its own in its place.
double source_water(double t) {
  return (999.83952 + 16.945176 * t - 7.9870401e-3 * t * t - 46.170461e-6 * t * t * t +
          105.56302e-9 * t * t * t * t - 280.54253e-12 * t * t * t * t * t) /
         (1 + 16.879850e-3 * t);
}
double on_source_water(double w, double t_c) {
  return salt(w, t_c) - physics::water_density(celsius_point(t_c)).value() + source_water(t_c);
}

class SaltFormulaTable : public RowTest {};

TEST_P(SaltFormulaTable, EveryDigit) {
  const double w = row().number("mass_percent") / 100;
  for (const int t_c : {0, 5, 10, 15, 20, 25, 30, 35, 40}) {
    const auto expected = row()["rho_t" + std::to_string(t_c)];
    EXPECT_NEAR(on_source_water(w, t_c), expected.value, expected.half_digit) << t_c << " °C";
  }
}
INSTANTIATE_TEST_SUITE_P(NaclDensityByTemperature, SaltFormulaTable,
                         testing::ValuesIn(rows_of("nacl-density-by-temperature")), line_name);

// [laliberte2009], evaluated independently.
TEST(Salt, SpotValues) {
  for (const auto& [w, t_c, rho] :
       {std::tuple{0.035, 17.3, 1023.6922}, {0.105, 22.5, 1073.5900}, {0.225, 30.0, 1162.7909}})
    EXPECT_NEAR(on_source_water(w, t_c), rho, 0.5e-4) << w << " at " << t_c << " °C";
}

}  // namespace
}  // namespace areo::published
