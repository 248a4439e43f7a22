// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/ferment/drink.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "areo/core/error.hpp"
#include "areo/ferment/balling.hpp"
#include "areo/physics/ethanol.hpp"
#include "areo/physics/mixture.hpp"

namespace areo::ferment {
namespace {

using physics::Liquid;

const Liquid drink{ExtractFraction{0.04}, EthanolFraction{0.05}};

TEST(Balling, BalanceAndItsInverseAgree) {
  for (const double oe : {0.02, 0.10, 0.25, 0.40})
    for (const double a : {0.0, 0.005, 0.01}) {
      const Liquid d = fermented(ExtractFraction{oe}, EthanolFraction{a});
      EXPECT_NEAR(original_extract(d).value(), oe, 1e-15);
      EXPECT_NEAR(ethanol_from_extracts(ExtractFraction{oe}, d.extract).value(), a, 1e-15);
    }
}

// 12 % original, 4 % real extract: A = 100 (12 - 4) / (206.65 - 1.0665 * 12) [balling].
TEST(Balling, WorkedByHand) {
  EXPECT_NEAR(ethanol_from_extracts(ExtractFraction{0.12}, ExtractFraction{0.04}).value(),
              8 / (206.65 - 12.798), 1e-15);
}

TEST(Balling, DensityIsMetAtAnyTemperature) {
  for (const double t : {5.0, 20.0, 33.0}) {
    const Liquid truth = fermented(ExtractFraction{0.13}, EthanolFraction{0.045});
    const Liquid found = fermented_to_density(
        ExtractFraction{0.13}, physics::density(truth, celsius_point(t)), celsius_point(t));
    EXPECT_NEAR(found.ethanol.value(), 0.045, 1e-11);
    EXPECT_NEAR(found.extract.value(), truth.extract.value(), 1e-10);
  }
}

TEST(Balling, RefusesWhatNoFermentCanDo) {
  const ExtractFraction oe{0.10};
  const Temperature t = celsius_point(20);
  const auto code = [&](double rho) {
    try {
      (void)fermented_to_density(oe, kg_per_m3(rho), t);
    } catch (const Error& e) {
      return e.code;
    }
    return Errc::parse;
  };
  EXPECT_EQ(code(1080), Errc::inconsistent);
  EXPECT_EQ(code(970), Errc::inconsistent);
  EXPECT_EQ(code(std::nan("")), Errc::domain);
}

TEST(Drink, StrengthByVolumeOfABinaryIsThatOfTheTables) {
  const EthanolFraction p{0.0398181};
  EXPECT_NEAR(strength_by_volume({ExtractFraction{0}, p}).value(), 5.0, 1e-3);
}

// 1 % vol is 7.89239 g/L [oimlr22].
TEST(Drink, StrengthIsGramsPerLitre) {
  const double g_l = drink.ethanol.value() * physics::density(drink, celsius_point(20)).value();
  EXPECT_NEAR(strength_by_volume(drink).value(), g_l / 7.89239, 1e-5);
  EXPECT_DOUBLE_EQ(strength_by_mass(drink).value(), 5);
}

TEST(Drink, ApparentExtractIsBelowRealExtract) {
  EXPECT_DOUBLE_EQ(real_extract(drink).value(), 4);
  EXPECT_LT(apparent_extract(drink).value(), 4);
  // A dry drink is lighter than water: apparent extract below zero.
  EXPECT_LT(apparent_extract({ExtractFraction{0.005}, EthanolFraction{0.08}}).value(), 0);
}

TEST(Drink, Attenuation) {
  EXPECT_NEAR(attenuation(ExtractFraction{0.12}, Plato{3}), 75, 1e-12);
  EXPECT_THROW((void)attenuation(ExtractFraction{0}, Plato{3}), Error);
  EXPECT_THROW((void)attenuation(ExtractFraction{std::nan("")}, Plato{3}), Error);
}

// [eu1169-2011]: 29 kJ/g and 17 kJ/g.
TEST(Drink, Energy) {
  const double g_100_ml = physics::density(drink, celsius_point(20)).value() / 10;
  EXPECT_NEAR(energy_kj_per_100_ml(drink), g_100_ml * (0.05 * 29 + 0.04 * 17), 1e-12);
}

// Common practice, no source.
TEST(Drink, RuleOfThumb) {
  using Sg = SpecificGravity<Ref20_20>;
  EXPECT_NEAR(rule_of_thumb_strength(Sg{1.050}, Sg{1.010}), 5.25, 1e-12);
}

}  // namespace
}  // namespace areo::ferment
