// SPDX-License-Identifier: GPL-3.0-or-later
// Density and strength of ethanol-water mixtures: the formula digit by digit. How far it is from
// measurements and from tables of trade: agreement_test.cpp.
#include "areo/physics/ethanol.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <cstddef>
#include <string>
#include <tuple>
#include <vector>

#include "rows.hpp"

namespace areo::published {
namespace {

double density(double p, double t_c) {
  return physics::ethanol_density(EthanolFraction{p}, celsius_point(t_c)).value();
}

// The general formula term by term from the table, in long double and without Horner's scheme.
long double from_table(const std::vector<Row>& rows, double p, double t_c) {
  const long double x = p, s = static_cast<long double>(t_c) - 20;
  long double rho = 0;
  for (const Row& r : rows) {
    const auto value = static_cast<long double>(r.number("value"));
    const long double k = r.number("k");
    if (r.text("kind") == "A")
      rho += value * (k == 1 ? 1 : std::pow(x, k - 1));
    else if (r.text("kind") == "B")
      rho += value * std::pow(s, k);
    else if (r.text("kind") == "C")
      rho += value * std::pow(x, k) * std::pow(s, static_cast<long double>(r.number("i")));
    else
      throw std::runtime_error{"unknown kind of coefficient: " + r.text("kind")};
  }
  return rho;
}

TEST(EthanolCoefficients, AreThoseOfTheTable) {
  const auto rows = rows_of("oiml-r22-coefficients");
  SCOPED_TRACE(rows.front().where());
  ASSERT_EQ(rows.size(), 54u) << "12 A, 6 B and 11 + 10 + 9 + 4 + 2 C";
  for (int i = 0; i <= 100; ++i)
    for (double t_c = -20; t_c <= 40; t_c += 2.5) {
      const auto expected = static_cast<double>(from_table(rows, i / 100.0, t_c));
      EXPECT_NEAR(density(i / 100.0, t_c), expected, 1e-9 * expected)
          << i << " % at " << t_c << " °C";
    }
}

// Each coefficient must matter: a changed digit may not hide below the tolerance above. Its share
// of the density is looked at where it is largest, p = 1 and t = -20 °C.
TEST(EthanolCoefficients, EachIsSeenByTheComparison) {
  for (const Row& r : rows_of("oiml-r22-coefficients")) {
    const double steps = r.text("kind") == "B" ? r.number("k") : r.empty("i") ? 0 : r.number("i");
    const double share = std::abs(r.number("value")) * std::pow(40, steps);
    EXPECT_GT(share * 1e-4, 1e-9 * 1000) << r.where();
  }
}

class EthanolFormulaTable : public RowTest {};

TEST_P(EthanolFormulaTable, EveryDigit) {
  const double p = physics::ethanol_fraction(StrengthByVolume{row().number("abv_percent")}).value();
  const auto mass = row()["mass_percent"];
  EXPECT_NEAR(100 * p, mass.value, mass.half_digit);
  for (const int t_c : {0, 5, 10, 15, 20, 25, 30, 35, 40}) {
    const auto expected = row()["rho_" + std::to_string(t_c)];
    EXPECT_NEAR(density(p, t_c), expected.value, expected.half_digit) << t_c << " °C";
  }
}
INSTANTIATE_TEST_SUITE_P(OimlR22DensityByTemperature, EthanolFormulaTable,
                         testing::ValuesIn(rows_of("oiml-r22-density-by-temperature")), line_name);

// [oimlr22], evaluated independently.
TEST(Ethanol, SpotValues) {
  EXPECT_NEAR(density(0, 20), 998.20123, 0.5e-5);
  EXPECT_NEAR(density(1, 20), 789.23912, 0.5e-5);
  EXPECT_NEAR(physics::pure_ethanol_density().value(), 789.23912, 0.5e-5);
  for (const auto& [p, t_c, rho] : {std::tuple{0.05, 10.0, 990.9845},
                                    {0.08, 25.0, 983.3962},
                                    {0.12, 4.0, 982.3199},
                                    {0.035, 17.5, 992.3610}})
    EXPECT_NEAR(density(p, t_c), rho, 0.5e-4) << p << " at " << t_c << " °C";
  for (const auto& [q, percent] : {std::tuple{1.0, 0.79185},
                                   {5.0, 3.98181},
                                   {8.0, 6.39601},
                                   {12.0, 9.64099},
                                   {15.0, 12.09289}}) {
    const auto p = physics::ethanol_fraction(StrengthByVolume{q});
    EXPECT_NEAR(100 * p.value(), percent, 0.5e-5) << q << " % vol";
    EXPECT_NEAR(physics::strength_by_volume(EthanolFraction{percent / 100}).value(), q, 1e-5);
  }
}

}  // namespace
}  // namespace areo::published
