// SPDX-License-Identifier: GPL-3.0-or-later
// Drinks of water, sugar and ethanol: values of Tabarié's relation from an independent evaluation.
// They stood on the waters of the pure-liquid formulas; areo has one water [tanaka2001], so its
// densities must differ by exactly the difference of the waters, and by nothing else.
#include "areo/physics/mixture.hpp"

#include <gtest/gtest.h>

#include <tuple>

#include "areo/physics/ethanol.hpp"
#include "areo/physics/sucrose.hpp"
#include "areo/physics/water.hpp"

namespace areo::published {
namespace {

double drink(double ethanol, double extract, double t_c) {
  return physics::density({ExtractFraction{extract}, EthanolFraction{ethanol}}, celsius_point(t_c))
      .value();
}
double water(double t_c) { return physics::water_density(celsius_point(t_c)).value(); }
double sps4_water(double t_c) {
  return physics::sucrose_density(ExtractFraction{0}, celsius_point(t_c)).value();
}
double oiml_water(double t_c) {
  return physics::ethanol_density(EthanolFraction{0}, celsius_point(t_c)).value();
}

// Through the g/L of the two binaries the water enters a second time: 4e-6 of what the two
// substances change, well below the printed digit.
constexpr double coupling_kg_m3 = 2e-5;

TEST(Drink, TabarieOnOneWater) {
  for (const auto& [ethanol, extract, t_c, rho] : {std::tuple{0.04, 0.05, 20.0, 1010.3544},
                                                   {0.04, 0.05, 10.0, 1012.1772},
                                                   {0.08, 0.02, 25.0, 990.9103},
                                                   {0.10, 0.12, 20.0, 1028.5954}}) {
    const double lifted = rho + water(t_c) - sps4_water(t_c);
    EXPECT_NEAR(drink(ethanol, extract, t_c), lifted, 0.5e-4 + coupling_kg_m3)
        << ethanol << ' ' << extract << ' ' << t_c;
  }
}

// Slope at 20 °C and changes to 10 °C and 30 °C, printed to 0.001. The row without sugar and
// ethanol stood on the water of [oimlr22], the others on that of [sps4]. The slope of the sugar
// solution was given as -0.254; the derivative of [sps4] is -0.253485, which rounds to -0.253, so
// that cell is compared with -0.2535.
TEST(Drink, TemperatureDifferences) {
  constexpr double half_digit = 0.5e-3;
  for (const auto& [ethanol, extract, slope, to_10, to_30] :
       {std::tuple{0.0, 0.0, -0.206, 1.494, -2.556},
        {0.04, 0.0, -0.213, 1.555, -2.651},
        {0.04, 0.05, -0.237, 1.823, -2.859},
        {0.08, 0.02, -0.252, 1.965, -3.005},
        {0.0, 0.10, -0.2535, 2.032, -2.972},
        {0.08, 0.10, -0.293, 2.425, -3.367}}) {
    SCOPED_TRACE(testing::Message() << ethanol << " ethanol, " << extract << " extract");
    const auto theirs = [e = ethanol, x = extract](double t_c) {
      return drink(e, x, t_c) - water(t_c) + (e == 0 && x == 0 ? oiml_water(t_c) : sps4_water(t_c));
    };
    EXPECT_NEAR((theirs(20.01) - theirs(19.99)) / 0.02, slope, half_digit);
    EXPECT_NEAR(theirs(10) - theirs(20), to_10, half_digit);
    EXPECT_NEAR(theirs(30) - theirs(20), to_30, half_digit);
  }
}

TEST(Drink, OneBinaryIsItsFormulaOnOneWater) {
  for (double t_c = 0; t_c <= 40; t_c += 5) {
    for (double p = 0.01; p <= 0.18; p += 0.01)
      EXPECT_NEAR(drink(p, 0, t_c) - water(t_c),
                  physics::ethanol_density(EthanolFraction{p}, celsius_point(t_c)).value() -
                      oiml_water(t_c),
                  1e-9);
    // Published difference of areo's water from the two others: at most 0.006 kg/m³ at 20 °C.
    EXPECT_LT(water(t_c) - sps4_water(t_c), 0.006) << t_c;
  }
  EXPECT_LT(water(20) - oiml_water(20), 0.006);
}

// The @check of the header.
TEST(Drink, HeaderCheck) { EXPECT_NEAR(drink(0.04, 0.05, 20), 1010.358, 0.5e-3); }

}  // namespace
}  // namespace areo::published
