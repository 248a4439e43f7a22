// SPDX-License-Identifier: GPL-3.0-or-later
// Boiling point of water and standard atmosphere against tables/boiling-point.csv.
#include "areo/physics/boiling.hpp"

#include <gtest/gtest.h>

#include <tuple>

#include "agreement.hpp"
#include "rows.hpp"

namespace areo::published {
namespace {

// How far the two equations are apart at most, as stated beside boiling_point(); agreement_test.cpp
// compares them over the whole range.
constexpr double if97_wagner_agreement_c = 0.001;

void expect_boiling_point(const Row& row, Pressure p) {
  const double t_c = physics::boiling_point(p).celsius();
  const auto if97 = row["t_if97_degC"];
  EXPECT_NEAR(t_c, if97.value, if97.half_digit);
  const auto wagner = row["t_wagner_pruss_degC"];
  EXPECT_NEAR(wagner_boiling_point_c(p.value()), wagner.value, wagner.half_digit);
  EXPECT_NEAR(t_c, wagner.value, if97_wagner_agreement_c + wagner.half_digit);
  // °F against °C of the same row: 1.8 times the tolerance, and the digits of this column.
  const auto fahrenheit = row["t_wp_degF"];
  EXPECT_NEAR(physics::boiling_point(p).in<FahrenheitUnit>(), fahrenheit.value,
              1.8 * if97_wagner_agreement_c + fahrenheit.half_digit);
}

class BoilingByPressure : public RowTest {};
TEST_P(BoilingByPressure, Temperature) {
  expect_boiling_point(row(), pascals(1000 * row().number("p_kPa")));
}
INSTANTIATE_TEST_SUITE_P(BoilingPoint, BoilingByPressure,
                         testing::ValuesIn(rows_of("boiling-point", "kind", "pressure")),
                         line_name);

class BoilingByAltitude : public RowTest {};
TEST_P(BoilingByAltitude, PressureAndTemperature) {
  const Pressure p = physics::standard_pressure(metres(row().number("altitude_m")));
  const auto expected = row()["p_kPa"];
  EXPECT_NEAR(p.value() / 1000, expected.value, expected.half_digit);
  expect_boiling_point(row(), p);
}
INSTANTIATE_TEST_SUITE_P(BoilingPoint, BoilingByAltitude,
                         testing::ValuesIn(rows_of("boiling-point", "kind", "altitude")),
                         line_name);

// [if97] region 4, its own check values; [isa], pressures to 0.01 Pa.
TEST(Boiling, SpotValues) {
  for (const auto& [mpa, kelvin] :
       {std::tuple{0.1, 372.755919}, {1.0, 453.035632}, {10.0, 584.149488}})
    EXPECT_NEAR(physics::boiling_point(pascals(1e6 * mpa)).in<KelvinUnit>(), kelvin, 0.5e-6);
  EXPECT_NEAR(physics::boiling_point(pascals(101325)).celsius(), 99.9743, 0.5e-4);
  for (const auto& [m, pa] : {std::tuple{500.0, 95460.84},
                              {1000.0, 89874.57},
                              {2000.0, 79495.22},
                              {3000.0, 70108.54},
                              {5000.0, 54019.91}})
    EXPECT_NEAR(physics::standard_pressure(metres(m)).value(), pa, 0.5e-2) << m;
}

}  // namespace
}  // namespace areo::published
