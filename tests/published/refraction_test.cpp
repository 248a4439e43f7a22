// SPDX-License-Identifier: GPL-3.0-or-later
// Refractive index of water, sugar, ethanol and drinks, and Brix refractometers away from 20 °C,
// against tables/.
#include "areo/physics/refraction.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <functional>
#include <ostream>
#include <string>
#include <tuple>
#include <vector>

#include "agreement.hpp"
#include "areo/ferment/balling.hpp"
#include "areo/ferment/drink.hpp"
#include "areo/measurement/temperature_table.hpp"
#include "areo/physics/mixture.hpp"
#include "areo/physics/water.hpp"
#include "rows.hpp"

namespace areo::published {
namespace {

using physics::ExtractOptics;
using physics::Liquid;

double water(double t_c) { return physics::water_refractive_index(celsius_point(t_c)).value(); }
double sugar_20(double w) {
  return physics::sucrose_refractive_index_20(ExtractFraction{w}).value();
}
double drink(double ethanol, double extract, double t_c,
             const ExtractOptics& optics = physics::sucrose_optics) {
  return physics::refractive_index({ExtractFraction{extract}, EthanolFraction{ethanol}},
                                   celsius_point(t_c), optics)
      .value();
}

// The polynomial of the sucrose scale has a water of its own, 1.3329889; areo has one.
constexpr double one_water = 8.5e-7;

class WaterIndexTable : public RowTest {};

// Three standard uncertainties of the polynomial through these values.
constexpr double water_residual = 3 * 3e-6;
// Index of dry air minus 1 at 101.325 kPa, as the table states it.
double air(double t_c) { return 2.7175e-4 * 293.15 / (273.15 + t_c); }

TEST_P(WaterIndexTable, AgainstAirOf20C) {
  const double t_c = row().number("t_c");
  const auto vacuum = row()["n_vacuum"];
  EXPECT_NEAR(water(t_c), vacuum.value / (1 + air(20)), water_residual + vacuum.half_digit);
  // The second column is against air of the water's temperature.
  const auto same_air = row()["n_air"];
  EXPECT_NEAR(water(t_c) * (1 + air(20)) / (1 + air(t_c)), same_air.value,
              water_residual + same_air.half_digit);
}
INSTANTIATE_TEST_SUITE_P(WaterRefractiveIndex, WaterIndexTable,
                         testing::ValuesIn(rows_of("water-refractive-index")), line_name);

class SucroseIndexCrcTable : public RowTest {};

// Above 70 % the handbook extrapolates, in density by up to 0.82 kg/m³; there 1 kg/m³ goes with
// 3.5e-4 in index. Half a digit on top.
TEST_P(SucroseIndexCrcTable, AsItExtrapolates) {
  const double percent = row().number("mass_percent");
  if (percent <= 70) return;  // agreement_test.cpp
  const auto printed = row()["n20d"];
  EXPECT_NEAR(sugar_20(percent / 100), printed.value, 0.82 * 3.5e-4 + printed.half_digit);
}
INSTANTIATE_TEST_SUITE_P(SucroseCrc20C, SucroseIndexCrcTable,
                         testing::ValuesIn(rows_of("sucrose-crc-20c")), line_name);

class BrixCorrectionTable : public RowTest {};

// @param correction  to a reading in Brix, at the temperature of the row
void expect_corrections(const Row& row, const std::function<double(int)>& correction) {
  std::size_t compared = 0;
  for (int shown = 0; shown <= 75; shown += 5) {
    const std::string column = "c" + std::to_string(shown);
    const auto& columns = row.table->columns;
    if (std::find(columns.begin(), columns.end(), column) == columns.end() || row.empty(column))
      continue;
    EXPECT_NEAR(correction(shown), row[column].value, brix_correction_bound(row, column, shown))
        << shown << " Brix";
    ++compared;
  }
  EXPECT_GE(compared, 11u);
}

// Of an instrument without error, as a bench card has it; the formula itself: agreement_test.cpp.
TEST_P(BrixCorrectionTable, OfACardWithinStatedDifference) {
  instruments::Refractometer r =
      instruments::ordinary_refractometer(instruments::RefractometerScale::brix);
  r.hi = 80;
  instruments::Correction none;
  none.checked_hi = r.hi;
  none.checks = 1;
  const auto sucrose = measurement::extract_kind_from_word("sucrose").value();
  const Temperature t = celsius_point(row().number("t_c"));
  expect_corrections(row(), [&](int shown) {
    return measurement::temperature_correction({r, none}, shown, t, sucrose)
        .at("correction")
        .value.estimate;
  });
}

INSTANTIATE_TEST_SUITE_P(International1936, BrixCorrectionTable,
                         testing::ValuesIn(rows_of("sucrose-refractometer-temperature-correction")),
                         line_name);

// Rows below 10 °C are irregular in print and outside the range of the model.
std::vector<Row> rows_from_10_c(const std::string& name) {
  auto rows = rows_of(name);
  std::erase_if(rows, [](const Row& r) { return r.number("t_c") < 10; });
  return rows;
}
INSTANTIATE_TEST_SUITE_P(
    Oiv, BrixCorrectionTable,
    testing::ValuesIn(rows_from_10_c("sucrose-refractometer-temperature-correction-oiv")),
    line_name);

// --- how strongly other sugars refract ---
struct Solute {
  const char* name;
  ExtractOptics optics;
};
void PrintTo(const Solute& s, std::ostream* out) { *out << s.name; }

// The sucrose solution of the row's density.
double counted_as_sucrose(const Row& r) {
  return physics::extract_from_density(kg_per_m3(1000 * r.number("density_g_cm3")),
                                       celsius_point(20))
      .value();
}

class SoluteTable : public testing::TestWithParam<Solute> {
 protected:
  static auto rows() {
    return rows_of("solutes-density-refractive-index-20c", "solute", GetParam().name);
  }
};

// The derivation beside the constants: least squares through zero.
TEST_P(SoluteTable, RelativeRise) {
  double xy = 0, xx = 0;
  for (const Row& r : rows()) {
    const auto [printed, sucrose] = rise(r);
    xy += sucrose * printed;
    xx += sucrose * sucrose;
  }
  constexpr double half_digit = 0.0005;
  EXPECT_NEAR(xy / xx, GetParam().optics.relative_rise, GetParam().optics.uncertainty + half_digit);
}

// Half a digit of index, of water's index and of density (0.05 kg/m³ are 1.9e-5 in index).
TEST_P(SoluteTable, EveryRow) {
  constexpr double prints = 5e-5 + 1.9e-5;
  const auto& optics = GetParam().optics;
  for (const Row& r : rows()) {
    const double w = counted_as_sucrose(r);
    EXPECT_NEAR(drink(0, w, 20, optics), r.number("n20d"),
                prints + 2 * optics.uncertainty * (sugar_20(w) - sugar_20(0)))
        << r.where();
  }
}
INSTANTIATE_TEST_SUITE_P(Sugars, SoluteTable,
                         testing::Values(Solute{"sucrose",
                                                {physics::sucrose_optics.relative_rise, 0.002}},
                                         Solute{"glucose", physics::glucose_optics},
                                         Solute{"fructose", physics::fructose_optics},
                                         Solute{"maltose", physics::maltose_optics}),
                         testing::PrintToStringParamName());

TEST(ExtractOptics, MixturesLieBetweenTheirParts) {
  EXPECT_DOUBLE_EQ(
      physics::invert_sugar_optics.relative_rise,
      (physics::glucose_optics.relative_rise + physics::fructose_optics.relative_rise) / 2);
  EXPECT_GT(physics::malt_extract_optics.relative_rise, physics::maltose_optics.relative_rise);
  EXPECT_LT(physics::malt_extract_optics.relative_rise, 0.385 / 0.371);  // [simmonds1919], [crc102]
}

// --- an independent evaluation, six decimals ---
// It took water from [iapws-r9-97] itself: the polynomial is 1.4e-6 off at most from 10 °C to
// 30 °C; and the sucrose scale on its own water.
constexpr double spot_difference = 0.5e-6 + 1.4e-6 + one_water;

TEST(SucroseIndex, SpotValues) {
  for (const auto& [w, t_c, n] :
       {std::tuple{0.125, 17.3, 1.351994}, {0.255, 25.0, 1.372520}, {0.50, 30.0, 1.418348}})
    EXPECT_NEAR(drink(0, w, t_c), n, spot_difference) << w << " at " << t_c << " °C";
}

TEST(DrinkIndex, SpotValues) {
  for (const auto& [ethanol, extract, t_c, n] : {std::tuple{0.04, 0.05, 20.0, 1.342700},
                                                 {0.04, 0.05, 10.0, 1.343522},
                                                 {0.08, 0.02, 25.0, 1.340416},
                                                 {0.10, 0.12, 20.0, 1.357597}})
    EXPECT_NEAR(drink(ethanol, extract, t_c), n, spot_difference)
        << ethanol << ' ' << extract << ' ' << t_c;
}

// Slopes of the index of ethanol in water at 20 °C, printed to 0.01e-4 per °C. A model's values:
// no measured ones were at hand.
TEST(DrinkIndex, TemperatureSlope) {
  for (const auto& [p, slope] :
       {std::tuple{0.0, -0.90e-4}, {0.04, -0.93e-4}, {0.08, -1.04e-4}, {0.12, -1.24e-4}})
    EXPECT_NEAR((drink(p, 0, 20.01) - drink(p, 0, 19.99)) / 0.02, slope, 0.005e-4) << p;
}

// The @check values of the header, printed digits.
TEST(RefractionHeader, Checks) {
  EXPECT_NEAR(water(20), 1.332988, 0.5e-6);
  EXPECT_NEAR(drink(0, 0.125, 17.3), 1.351994, 0.5e-6);
  EXPECT_NEAR(drink(0.04, 0.05, 20), 1.342699, 0.5e-6);
  EXPECT_NEAR(physics::ideal_brix_shown({}, celsius_point(30)).value(), -0.745, 0.5e-3);
  EXPECT_NEAR(physics::extract_from_brix_shown(Brix{0}, celsius_point(30)).value(), 0.00748,
              0.5e-5);
  EXPECT_NEAR(physics::extract_from_brix_shown(Brix{50}, celsius_point(10)).value(), 0.49245,
              0.5e-5);
}

// --- extract and ethanol together: plausibility only ---
// Barth's constants for beer [simmonds1919], percent by mass. Malt refracts more than sucrose, so
// a sugar solution with alcohol has less alcohol by them than is in it, by the stated 0.16, 0.22
// and 0.25 %; with the malt extract of areo the two agree within 0.1 %.
TEST(DrinkIndex, BarthsLine) {
  for (const auto& [ethanol, extract, stated] :
       {std::tuple{0.04, 0.04, 0.16}, {0.10, 0.10, 0.22}, {0.04, 0.08, 0.25}}) {
    EXPECT_NEAR(barth_finds_too_little(ethanol, extract, physics::sucrose_optics), stated, 0.005)
        << ethanol << ' ' << extract;
    EXPECT_NEAR(barth_finds_too_little(ethanol, extract, physics::malt_extract_optics), 0, 0.1)
        << ethanol << ' ' << extract;
  }
}

// While one wort ferments, the apparent extract is a straight line in the refractometer's reading
// [savel2020]. Slopes and bends are the model's own to 95 % attenuation, so this watches that it
// stays as it is. Each bend is the largest distance from the line, rounded up: 0.197 for 18 °P.
TEST(DrinkIndex, FermentationIsNearlyStraight) {
  for (const auto& [original, slope, bend] :
       {std::tuple{8.0, 1.570, 0.04}, {12.0, 1.588, 0.09}, {18.0, 1.616, 0.20}}) {
    const ExtractFraction wort = extract_fraction(Plato{original});
    const double most = ferment::ethanol_from_extracts(wort, ExtractFraction{0}).value();
    for (int i = 0; i <= 95; ++i) {
      const Liquid beer = ferment::fermented(wort, EthanolFraction{most * i / 100});
      const double shown = physics::ideal_brix_shown(beer, celsius_point(20)).value();
      EXPECT_NEAR(ferment::apparent_extract(beer).value(), original + slope * (shown - original),
                  bend)
          << original << " Plato, " << i << " % attenuated";
    }
  }
}

}  // namespace
}  // namespace areo::published
