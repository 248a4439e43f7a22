// SPDX-License-Identifier: GPL-3.0-or-later
// The tables of numbers: each cell is what the library says of its entry.
#include "areo/paper/tables.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <nlohmann/json.hpp>

#include "areo/core/error.hpp"
#include "areo/measurement/alcohol.hpp"
#include "areo/measurement/convert.hpp"
#include "areo/measurement/dilution.hpp"
#include "areo/measurement/temperature_table.hpp"

namespace areo::paper {
namespace {

using Json = nlohmann::ordered_json;

double estimate(const GridCell& c) { return c.value.value().estimate; }

instruments::TemperatureReading at_20_c() {
  instruments::TemperatureReading t;
  t.indication_c = 20;
  t.half_width_c = 0.5;
  return t;
}

TEST(ConversionTable, IsWhatAConversionSays) {
  const Grid g =
      conversion_table({.from = "10P", .to = "12P", .step = "1", .columns = "SG,kg/m3,nD"});
  EXPECT_EQ(g.rows.size(), 3u);
  EXPECT_EQ(g.rows.key, "entry_plato");
  const auto cells = g.cells(11, 0);
  ASSERT_EQ(cells.size(), 3u);
  const std::vector to{physics::sg_20_20, physics::density_20};
  const auto said = measurement::convert(physics::plato_20, 11, 0, to);
  EXPECT_EQ(estimate(cells[0]), said.quantities[0].value.estimate);
  EXPECT_EQ(estimate(cells[1]), said.quantities[1].value.estimate);
  EXPECT_EQ(
      estimate(cells[2]),
      measurement::refractive_index_20(physics::plato_20, 11).quantities.front().value.estimate);
  const Json j = Json::parse(g.json(11, 0).value());
  EXPECT_EQ(j["entry"], 11);
  EXPECT_EQ(j["refractive_index_20"]["value"].get<double>(), estimate(cells[2]));
}

TEST(ConversionTable, ShowsAColumnThatIsNamedTwiceOnceAndRefusesOthers) {
  EXPECT_EQ(conversion_table({.columns = "P,nD,P"}).quantities.size(), 2u);
  EXPECT_THROW((void)conversion_table({.columns = "furlongs"}), ParseError);
  EXPECT_THROW((void)conversion_table({.from = "1.060", .to = "1.010"}), Error);
  EXPECT_THROW((void)conversion_table({.from = "1.000", .to = "10P"}), Error);
}

TEST(TemperatureTable, IsTheCorrectionOfAnInstrumentWithoutError) {
  const Grid g = temperature_table(
      {.coldest = "50F", .warmest = "86F", .step = "18F", .readings = "1.000,1.050"},
      Shape::for_people);
  ASSERT_EQ(g.rows.size(), 3u);
  EXPECT_EQ(g.rows.unit, "°F");
  const auto stem = measurement::without_error(instruments::ordinary_hydrometer(physics::sg_20_20));
  const auto said = measurement::temperature_correction(stem, 1.050, fahrenheit_point(86));
  EXPECT_NEAR(estimate(g.cells(86, 1.050).front()), said.at("correction").value.estimate, 1e-12);
  EXPECT_NEAR(estimate(g.cells(68, 1.050).front()), 0, 1e-9) << "its reference temperature";
  EXPECT_THROW((void)temperature_table({.coldest = "10C", .step = "2F"}, Shape::for_people), Error);
}

TEST(AlcoholTable, IsTheStrengthBetweenTwoReadings) {
  AlcoholTable t{.from = "1.000", .to = "1.020", .step = "0.01", .originals = "1.050,1.010"};
  t.temperature = at_20_c();
  const Grid g = alcohol_table(t);
  EXPECT_EQ(g.columns->listed, (std::vector{1.010, 1.050}));
  const auto cell = g.cells(1.010, 1.050).front();
  EXPECT_NEAR(estimate(cell), 5.3, 0.3) << "4 % in gravity is about 5 % vol";
  EXPECT_GT(cell.value->u, 0);
  EXPECT_FALSE(g.cells(1.020, 1.010).front().value) << "it does not become heavier";
  EXPECT_FALSE(g.json(1.020, 1.010));
  const Json j = Json::parse(g.json(1.010, 1.050).value());
  EXPECT_EQ(j["present"], 1.01);
  EXPECT_EQ(j["state"], "measured");
  t.originals = "10P";
  EXPECT_THROW((void)alcohol_table(t), Error) << "on two scales";
}

TEST(RefractometerTable, HasGravityAndStrengthInOneCell) {
  RefractometerTable t{.from = "4", .to = "8", .step = "2", .originals = "12"};
  t.temperature = at_20_c();
  const Grid g = refractometer_table(t);
  const auto cells = g.cells(6, 12);
  ASSERT_EQ(cells.size(), 2u);
  EXPECT_TRUE(estimate(cells[0]) > 1.00 && estimate(cells[0]) < 1.02);
  EXPECT_TRUE(estimate(cells[1]) > 4 && estimate(cells[1]) < 7);
  t.instrument = measurement::CalibratedRefractometer::never_checked(
      instruments::ordinary_refractometer(instruments::RefractometerScale::index));
  EXPECT_THROW((void)refractometer_table(t), Error);
}

TEST(SolutionTable, HasMassesThatTheBalanceCanShow) {
  for (const auto solute : {calibration::Solute::sucrose, calibration::Solute::sodium_chloride}) {
    const Grid g = solution_table({.solute = solute,
                                   .from = "1.010",
                                   .to = "1.050",
                                   .step = "0.01",
                                   .total_g = 250,
                                   .balance_division_g = 0.1});
    EXPECT_FALSE(g.smooth) << "masses go in steps";
    for (const double mark : {1.010, 1.030, 1.050}) {
      const auto cells = g.cells(mark, 0);
      EXPECT_EQ(cells.size(), solute == calibration::Solute::sucrose ? 6u : 5u);
      EXPECT_NEAR(estimate(cells[0]) * 10, std::round(estimate(cells[0]) * 10), 1e-9);
      EXPECT_NEAR(estimate(cells[0]) + estimate(cells[1]), 250, 0.1 + 1e-9);
      EXPECT_NEAR(estimate(cells[4]), mark, 0.0005) << "half a division of 0.1 g in 250 g";
    }
  }
  const Grid coarse = solution_table({.from = "1.000", .to = "1.010", .total_g = 10});
  EXPECT_THROW((void)coarse.cells(1.000, 0), Error) << "less than a division";
}

TEST(EthanolTable, IsWaterAtNothing) {
  const Grid g = ethanol_table({.from = "0", .to = "100", .step = "50"});
  EXPECT_NEAR(estimate(g.cells(0, 0)[2]), 998.2, 0.05);
  EXPECT_NEAR(estimate(g.cells(100, 0)[0]), 100, 0.005) << "half of the last digit that is printed";
  EXPECT_THROW((void)ethanol_table({.from = "-5"}), ParseError);
}

TEST(DilutionTable, IsWaterDownAndSugarUp) {
  const Grid down =
      dilution_table({.from = "1.060", .to = "1.080", .step = "0.01", .wanted = "1.050"});
  EXPECT_EQ(
      estimate(down.cells(1.060, 1.050).front()),
      measurement::water_to_add(physics::sg_20_20, 1.060, 1.050).quantities.front().value.estimate);
  EXPECT_FALSE(down.cells(1.060, 1.070).front().value) << "water makes nothing heavier";
  const Grid up = dilution_table(
      {.add = DilutionTable::Add::sugar, .from = "6P", .to = "12P", .step = "2", .wanted = "10P"});
  EXPECT_EQ(up.quantities.front().key, "sugar_g_per_l");
  EXPECT_TRUE(up.cells(6, 10).front().value);
  EXPECT_FALSE(up.cells(12, 10).front().value);
  EXPECT_THROW((void)dilution_table({.wanted = "10P"}), Error) << "on two scales";
}

}  // namespace
}  // namespace areo::paper
