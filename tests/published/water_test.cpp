// Density of water against tables/water-density.csv.
#include "areo/physics/water.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <tuple>

#include "areo/core/error.hpp"
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
