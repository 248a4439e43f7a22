// SPDX-License-Identifier: GPL-3.0-or-later
// Water and sugar for a volume: what the room says of a litre, times the volume.
#include "areo/front/dilution.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "areo/core/error.hpp"
#include "areo/front/literals.hpp"
#include "areo/measurement/dilution.hpp"

namespace areo {
namespace {

// Masses and volumes are held in kg and m³: a rounding of each.
void expect_times(double front, double inner, double litres) {
  EXPECT_NEAR(front, litres * inner, 1e-12 * std::abs(litres * inner));
}

TEST(Dilution, WaterForAVolume) {
  const auto front = water_to_add<Gravity>({.from = 1.060_sg, .to = 1.050_sg, .volume = 5_L});
  const auto inner = measurement::water_to_add(physics::sg_20_20, 1.060, 1.050);
  const auto& water = inner.at("water_g_per_l").value;
  expect_times(number(front.mass.value()), water.estimate, 5);
  // A central difference of numbers of the estimate's size, each rounded.
  EXPECT_NEAR(number(front.mass.standard_uncertainty()), 5 * water.u, 5e-15 * 5 * water.estimate);
  expect_times(number(front.volume.value()), inner.at("volume_l").value.estimate, 5);
}

TEST(Dilution, SugarForAVolume) {
  const auto front = sugar_to_add<Plato>({.from = 10_plato, .to = 12_plato, .volume = 2_L});
  const auto inner = measurement::sugar_to_add(physics::plato_20, 10, 12);
  expect_times(number(front.mass.value()), inner.at("sugar_g_per_l").value.estimate, 2);
}

TEST(Dilution, AVolumeOfAKitchenIsPartOfTheUncertainty) {
  const auto exact = water_to_add<Gravity>({.from = 1.060_sg, .to = 1.050_sg, .volume = 5_L});
  const auto rough = water_to_add<Gravity>(
      {.from = 1.060_sg, .to = 1.050_sg, .volume = within(5_L, 0.25_L, "volume of the jar")});
  const double of_volume = number(exact.mass.value()) * 0.05 / std::sqrt(3.0);
  EXPECT_NEAR(number(rough.mass.standard_uncertainty()),
              std::hypot(number(exact.mass.standard_uncertainty()), of_volume), 1e-9);
  EXPECT_EQ(rough.mass.budget().front().input.name, "volume of the jar");
}

TEST(Dilution, RefusesTheWrongWayAndNoVolume) {
  EXPECT_THROW((void)water_to_add<Gravity>({.from = 1.050_sg, .to = 1.060_sg, .volume = 5_L}),
               Error);
  EXPECT_THROW((void)water_to_add<Gravity>({.from = 1.060_sg, .to = 1.050_sg, .volume = 0_L}),
               Error);
}

}  // namespace
}  // namespace areo
