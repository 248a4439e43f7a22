// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/calibration/solution.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "areo/core/error.hpp"
#include "areo/physics/mixture.hpp"
#include "areo/physics/salt.hpp"

namespace areo::calibration {
namespace {

uncertainty::Value fraction_of(const WeighedSolution& s) {
  uncertainty::Inputs in;
  const SolutionInputs liquid{in, s};
  return propagate(in, [&](const uncertainty::Point& x) { return std::vector{liquid.fraction(x)}; })
      .values[0];
}

// 10 g of pure dry sucrose and 90 g of water on a balance in air. Buoyancy: sucrose shows
// 1 - 1.2/1587 of its mass, water 1 - 1.2/998, so the true fraction is 0.0400 % smaller than 0.1.
TEST(WeighedSolution, BuoyancyOfAir) {
  WeighedSolution s = sugar_solution(10, 90);
  s.purity_lo = s.purity_hi = 1;
  s.moisture_hi = 0;
  const double sugar = 10 / (1 - 1.2 / 1587);
  const double water = 90 / (1 - 1.2 / 998);
  EXPECT_NEAR(fraction_of(s).estimate, sugar / (sugar + water), 1e-14);
}

TEST(WeighedSolution, PurityAndMoistureTakeTheirShare) {
  WeighedSolution pure = sugar_solution(100, 900);
  pure.purity_lo = pure.purity_hi = 1;
  pure.moisture_hi = 0;
  const double ratio = fraction_of(sugar_solution(100, 900)).estimate / fraction_of(pure).estimate;
  EXPECT_NEAR(ratio, (1 - 0.0005) * 0.9985, 1e-12);
}

// w = s / (s + h): u² = ((1-w) u_s / m)² + (w u_h / m)², each mass ± 1 division triangular for its
// two indications and ± 1 rectangular for the line of the balance.
TEST(WeighedSolution, BalanceUncertainty) {
  WeighedSolution s = sugar_solution(50, 450, 1);
  s.purity_lo = s.purity_hi = 1;
  s.moisture_hi = 0;
  const double u_mass = std::hypot(1 / std::sqrt(6.0), 1 / std::sqrt(3.0));
  EXPECT_NEAR(fraction_of(s).u, std::hypot(0.9 * u_mass, 0.1 * u_mass) / 500, 2e-6);
}

TEST(WeighedSolution, DensityIsThatOfTheFraction) {
  for (const WeighedSolution& s : {sugar_solution(52, 448), salt_solution(27, 473)}) {
    uncertainty::Inputs in;
    const SolutionInputs liquid{in, s};
    const auto x = in.estimates();
    const uncertainty::Point at{x};
    const Temperature t = celsius_point(22);
    const double w = liquid.fraction(at);
    const Density expected = s.solute == Solute::sucrose
                                 ? physics::density({ExtractFraction{w}}, t)
                                 : physics::salt_density(SaltFraction{w}, t);
    EXPECT_DOUBLE_EQ(liquid.density(at, t).value(), expected.value());
  }
}

TEST(WeighIn, MakesTheDensityThatWasAskedFor) {
  for (const WeighedSolution& kind : {sugar_solution(1, 1), salt_solution(1, 1)}) {
    const WeighedSolution s = weigh_in(kind, 500, kg_per_m3(1040), celsius_point(20));
    EXPECT_NEAR(s.solute_g + s.water_g, 500, 1e-9);
    uncertainty::Inputs in;
    const SolutionInputs liquid{in, s};
    const auto x = in.estimates();
    EXPECT_NEAR(liquid.density(uncertainty::Point{x}, celsius_point(20)).value(), 1040, 1e-6);
  }
}

TEST(WeighedSolution, RefusesNonsense) {
  EXPECT_THROW((void)fraction_of(sugar_solution(0, 100)), Error);
  EXPECT_THROW((void)fraction_of(sugar_solution(10, -1)), Error);
  EXPECT_THROW((void)fraction_of(sugar_solution(std::nan(""), 100)), Error);
  EXPECT_THROW((void)fraction_of(sugar_solution(10, 100, 0)), Error);
  WeighedSolution s = sugar_solution(10, 90);
  s.purity_lo = 1.1;
  EXPECT_THROW((void)fraction_of(s), Error);
  EXPECT_THROW((void)weigh_in(sugar_solution(1, 1), 500, kg_per_m3(990), celsius_point(20)), Error);
  EXPECT_THROW((void)weigh_in(salt_solution(1, 1), 500, kg_per_m3(1300), celsius_point(20)), Error);
  EXPECT_THROW((void)weigh_in(sugar_solution(1, 1), 0, kg_per_m3(1040), celsius_point(20)), Error);
}

// What a table says of a mass is what the solution's own inputs have.
TEST(Balance, RoundsToItsDivisionAndKnowsItsDoubt) {
  const WeighedSolution s = to_balance(sugar_solution(50.26, 449.74, 0.5));
  EXPECT_DOUBLE_EQ(s.solute_g, 50.5);
  EXPECT_DOUBLE_EQ(s.water_g, 449.5);
  uncertainty::Inputs inputs;
  (void)SolutionInputs{inputs, s};
  double variance = 0;  // of both masses
  for (const uncertainty::Input& input : inputs.all())
    if (input.origin == uncertainty::Origin::mass) variance += input.u * input.u;
  EXPECT_DOUBLE_EQ(std::sqrt(variance / 2), mass_uncertainty_g(s));
}

}  // namespace
}  // namespace areo::calibration
