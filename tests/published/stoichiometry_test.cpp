// SPDX-License-Identifier: GPL-3.0-or-later
// Grams that come of a gram of sugar, against tables/fermentation-stoichiometry.csv.
#include "areo/ferment/stoichiometry.hpp"

#include <gtest/gtest.h>

#include <map>
#include <string>
#include <utility>

#include "areo/core/scales.hpp"
#include "areo/ferment/drink.hpp"
#include "areo/physics/carbon_dioxide.hpp"
#include "areo/physics/mixture.hpp"
#include "areo/physics/scale.hpp"
#include "rows.hpp"

namespace areo::published {
namespace {

using namespace areo::ferment;  // NOLINT: the constants are many, and of no other room

constexpr double ethanol = 2 * carbon + 6 * hydrogen + oxygen;
constexpr double lactic_acid = 3 * carbon + 6 * hydrogen + 3 * oxygen;

using Way = std::pair<std::string, std::string>;
const std::map<Way, double>& ways() {
  static const std::map<Way, double> all{
      {{"sucrose", "hexose"}, 2 * hexose_mass / sucrose_mass},
      {{"hexose", "ethanol"}, 2 * ethanol / hexose_mass},
      {{"hexose", "carbon dioxide"}, carbon_dioxide_per_hexose},
      {{"sucrose", "ethanol"}, 4 * ethanol / sucrose_mass},
      {{"sucrose", "carbon dioxide"}, carbon_dioxide_per_sucrose},
      // C6H12O6 -> lactic acid + C2H5OH + CO2: half of the gas.
      {{"hexose with lactic acid", "lactic acid"}, lactic_acid / hexose_mass},
      {{"hexose with lactic acid", "ethanol"}, ethanol / hexose_mass},
      {{"hexose with lactic acid", "carbon dioxide"}, carbon_dioxide_per_hexose / 2},
      {{"extract", "carbon dioxide"}, carbon_dioxide_per_extract}};
  return all;
}

class Stoichiometry : public RowTest {};
TEST_P(Stoichiometry, GramsOfAGram) {
  const auto printed = row()["g_per_g"];
  EXPECT_NEAR(ways().at({row().text("of"), row().text("to")}), printed.value, printed.half_digit);
}
INSTANTIATE_TEST_SUITE_P(Ferment, Stoichiometry,
                         testing::ValuesIn(rows_of("fermentation-stoichiometry")), line_name);

// Balling's balance closes: 2.0665 = 1 + 0.9565 + 0.11.
TEST(Stoichiometry, BallingsBalanceCloses) {
  EXPECT_NEAR(1 + carbon_dioxide_per_ethanol + 0.11, balling_yield.extract_per_ethanol, 1e-12);
  EXPECT_NEAR(balling_yield.mass_lost_per_ethanol(), carbon_dioxide_per_ethanol + 0.11, 1e-12);
}

// "A drop of 0.001 SG in a closed bottle: about 1.0 g/L, 0.5 volumes, about 0.65 bar more at
// 20 °C", for a dilute drink: half of the last digits. Here a drink from 1.040, half fermented, of
// 2.6 % vol and 60 g/L extract.
TEST(Stoichiometry, ADropOfAThousandth) {
  const ExtractFraction original = physics::liquid_from_mark(physics::sg_20_20, 1.040).extract;
  const auto extract_g_l = [&](double sg) {
    const Density rho = physics::density_from_mark(physics::sg_20_20, sg);
    return fermented_to_density(original, rho, celsius_point(20)).extract.value() * rho.value();
  };
  const double sugar = extract_g_l(1.020) - extract_g_l(1.019);
  const double gas = sugar * carbon_dioxide_per_hexose;
  EXPECT_NEAR(gas, 1.0, 0.05);
  EXPECT_NEAR(gas / physics::carbon_dioxide_g_per_volume, 0.5, 0.05);
  const double k = physics::solubility_in_water(celsius_point(20)) *
                   physics::solubility_ratio(StrengthByVolume{2.6}, MassConcentration{60});
  const physics::ClosedBottle full{celsius_point(20), k};
  EXPECT_NEAR(physics::carbon_dioxide_pressure(full, gas).value() / 1e5, 0.65, 0.05);
}

}  // namespace
}  // namespace areo::published
