// SPDX-License-Identifier: GPL-3.0-or-later
// Convert, correct, refract and an entry of a table: the same bits as the rooms behind them.
#include "areo/front/jobs.hpp"

#include <gtest/gtest.h>

#include <array>
#include <vector>

#include "areo/core/error.hpp"
#include "areo/front/literals.hpp"
#include "areo/measurement/convert.hpp"
#include "areo/measurement/correct.hpp"
#include "areo/measurement/temperature_table.hpp"
#include "areo/physics/scale_name.hpp"
#include "areo/wording/notes.hpp"
#include "inner.hpp"
#include "same.hpp"

namespace areo {
namespace {

TEST(Convert, IsThatOfTheRoom) {
  const std::array to{physics::plato_20, physics::oechsle_20};
  const auto inner = measurement::convert(physics::sg_20_20, 1.048, 0, to);
  const auto [p, oe] = convert<Plato, Oechsle>(1.048_sg);
  expect_same(p, inner, "plato");
  expect_same(oe, inner, "oechsle");
  expect_same(convert<Plato>(1.048_sg), inner, "plato");
}

TEST(Convert, TakesTheUncertaintyOfTheMarkAlong) {
  const std::array to{physics::plato_20};
  const auto inner = measurement::convert(physics::sg_20_20, 1.048, 0.0005, to).at("plato").value;
  const auto front = convert<Plato>(within(1.048_sg, {0.0005})).evidence().value;
  EXPECT_EQ(front.estimate, inner.estimate);
  EXPECT_NEAR(front.u, inner.u, 1e-14 * inner.u);  // a share is divided by u and multiplied again
}

TEST(Convert, BackAgainKnowsThatItIsTheSameLiquid) {
  const auto mark = within(1.048_sg, {0.0005});
  const auto there = convert<Plato>(mark);
  // The rest is the formula's: 0.015 °P beside 0.14 °P.
  EXPECT_NEAR(correlation(there, mark), 1 - 0.5 * 0.015 * 0.015 / (0.14 * 0.14), 0.001);
  EXPECT_EQ(correlation(there, within(1.048_sg, {0.0005})), 0);
  EXPECT_LT(convert<Gravity>(there).evidence().value.u, 1.001 * mark.evidence().value.u);
}

TEST(Convert, Strengths) {
  const auto inner = measurement::convert_strength(StrengthByVolume{5}, 0);
  expect_same(by_mass(5_percent_vol), inner, "alcohol_percent_mass");
  const auto back = measurement::convert_strength(StrengthByMass{4}, 0);
  expect_same(by_volume(4_percent_mass), back, "alcohol_percent_vol");
}

TEST(Correct, IsThatOfTheRoom) {
  const auto front = correct(front_stem().read(1.046_sg, 27_degC));
  const auto sample = inner_reading(1.046, 27);
  const auto inner = measurement::correct(sample.instrument, sample.reading, {});
  expect_same(front.reading, inner, "sg_20_20");
  expect_same(front.correction, inner, "correction");
  expect_same(front.density, inner, "density_at_t_kg_m3");
  EXPECT_EQ(front.notes, wording::all_notes(inner));
  EXPECT_FALSE(front.notes.empty());  // it was never checked
}

TEST(Correct, StatesWhatNobodyRead) {
  auto sample = inner_reading(1.046, 20);
  sample.reading.temperature = instruments::assumed_temperature(celsius(20));
  const auto inner = measurement::correct(sample.instrument, sample.reading, {});
  expect_same(correct(front_stem().read(1.046_sg)).reading, inner, "sg_20_20");
}

TEST(Correct, TakesHowItWasRead) {
  auto sample = inner_reading(1.046, 27);
  sample.reading.meniscus = Meniscus::top;
  sample.reading.half_width = 0.0005;
  sample.reading.temperature.half_width_c = 0.2;
  const auto inner = measurement::correct(sample.instrument, sample.reading, {});
  const auto front = correct(front_stem().read(
      1.046_sg, {27_degC, 0.2_K}, {.half_width = {0.0005}, .meniscus = Meniscus::top}));
  expect_same(front.reading, inner, "sg_20_20");
}

TEST(Correct, TakesTheMeanOfSeveralReadings) {
  auto sample = inner_reading(0, 20);
  const std::vector<std::vector<double>> read{{1.048, 1.047, 1.048}};
  sample.reading.repeated =
      instruments::mean_of(read[0], 0.001, uncertainty::pooled_repeatability(read));
  sample.reading.indication = sample.reading.repeated->mean;
  const auto inner = measurement::correct(sample.instrument, sample.reading, {});
  const auto front = correct(front_stem().read({1.048_sg, 1.047_sg, 1.048_sg}, 20_degC));
  expect_same(front.reading, inner, "sg_20_20");
}

TEST(Correct, RefusesWhatIsOffTheScale) {
  EXPECT_THROW((void)correct(front_stem().read(1.200_sg, 20_degC)), Error);
  EXPECT_THROW((void)correct(front_stem().read(1.048_sg, 95_degC)), Error);
  EXPECT_THROW((void)correct(front_stem().read(gravity(std::nan("")), 20_degC)), Error);
}

TEST(Correct, OtherScalesOfAStem) {
  const Hydrometer<Plato> stem{.name = "spindle"};
  instruments::Hydrometer h = instruments::ordinary_hydrometer(physics::plato_20);
  h.name = "spindle";
  instruments::HydrometerReading r;
  r.indication = 12.5;
  r.temperature.indication_c = 18;
  const auto inner = measurement::correct(measurement::Calibrated::never_checked(h), r, {});
  expect_same(correct(stem.read(12.5_plato, 18_degC)).reading, inner, "plato");
}

TEST(Correct, ThermometerWithANameAndADivision) {
  const Thermometer probe{.name = "probe", .division = 0.1_K};
  auto sample = inner_reading(1.046, 27);
  const instruments::Thermometer t{.name = "probe", .division_c = 0.1};
  sample.reading.temperature.half_width_c = 0.05;
  sample.reading.temperature.thermometer = t;
  sample.reading.temperature.correction = instruments::never_checked(0.1, -10, 110);
  const auto inner = measurement::correct(sample.instrument, sample.reading, {});
  expect_same(correct(front_stem().read(1.046_sg, probe.read(27_degC))).reading, inner, "sg_20_20");
  EXPECT_THROW((void)probe.read(150_degC), Error);
}

TEST(Refract, IsThatOfTheRoom) {
  const auto front = refract(front_prism().read(12.4_brix, 22_degC));
  const auto inner = measurement::refract(inner_refraction(12.4, 22), {}, {});
  expect_same(front.extract, inner, "extract_percent");
  expect_same(front.gravity, inner, "sg_20_20");
  expect_same(front.density, inner, physics::scale_key(physics::density_20).c_str());
}

TEST(TemperatureCorrection, IsThatOfTheRoom) {
  expect_same(temperature_correction(front_stem(), 1.050_sg, 30_degC),
              measurement::temperature_correction(inner_stem(), 1.05, celsius(30)), "correction");
  expect_same(temperature_correction(front_stem(), 1.010_sg, 30_degC, 5_percent_vol),
              measurement::temperature_correction(inner_stem(), 1.01, celsius(30), percent_vol(5)),
              "correction");
  const auto ideal = measurement::without_error(inner_stem().hydrometer);
  expect_same(temperature_correction(without_error(front_stem()), 1.050_sg, 30_degC),
              measurement::temperature_correction(ideal, 1.05, celsius(30)), "correction");
  expect_same(temperature_correction(front_prism(), 12_brix, 25_degC),
              measurement::temperature_correction(inner_refraction(12, 25).instrument, 12,
                                                  celsius(25), ExtractKind{}),
              "correction");
}

}  // namespace
}  // namespace areo
