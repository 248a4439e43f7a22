// SPDX-License-Identifier: GPL-3.0-or-later
// Balling's balance. Against his table, distilled beers and wines: agreement_test.cpp.
#include "areo/ferment/balling.hpp"

#include <gtest/gtest.h>

#include "areo/ferment/drink.hpp"
#include "areo/physics/mixture.hpp"
#include "areo/physics/scale.hpp"

namespace areo::published {
namespace {

// 100 parts of extract give 48.391 alcohol, 46.285 carbon dioxide, 5.324 yeast [balling].
TEST(Balling, OriginalProportions) {
  EXPECT_NEAR(100 / ferment::balling_yield.extract_per_ethanol, 48.391, 0.0005);
  EXPECT_NEAR(100 * (ferment::balling_yield.mass_lost_per_ethanol() - 0.11) /
                  ferment::balling_yield.extract_per_ethanol,
              46.285,
              0.002);  // Balling's equivalents give 46.2866
  // Factor of real attenuation at 12 %: 0.51586, printed 0.5158, so cut and not rounded.
  EXPECT_NEAR(ferment::ethanol_from_extracts(ExtractFraction{0.12}, ExtractFraction{0.11}).value(),
              0.5158 * 0.01, 0.0001 * 0.01);
}

// Spot values of the balance with the density of the drink, computed independently on the waters of
// the source formulas. Half of the last digit, and 0.001 % vol for the one water of areo: up to
// 7.5e-6 in SG, at 140 % vol per unit of SG.
TEST(BallingWithDrinkDensity, SpotValues) {
  constexpr double tolerance = 0.005 + 0.001;
  const auto strength = [](double original, double present) {
    const auto oe = physics::liquid_from_mark(physics::sg_20_20, original).extract;
    return ferment::strength_by_volume(
               ferment::fermented_to_density(
                   oe, physics::density_from_mark(physics::sg_20_20, present), celsius_point(20)))
        .value();
  };
  EXPECT_NEAR(strength(1.020, 1.005), 1.93, tolerance);
  EXPECT_NEAR(strength(1.040, 1.010), 3.90, tolerance);
  EXPECT_NEAR(strength(1.050, 1.010), 5.22, tolerance);
  EXPECT_NEAR(strength(1.080, 1.000), 10.63, tolerance);
  EXPECT_NEAR(strength(1.100, 1.000), 13.43, tolerance);
}

}  // namespace
}  // namespace areo::published
