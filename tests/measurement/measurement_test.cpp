// SPDX-License-Identifier: GPL-3.0-or-later
// The whole chain with its uncertainty: convert, correct, alcohol, solution.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>
#include <string>
#include <vector>

#include "areo/core/error.hpp"
#include "areo/ferment/balling.hpp"
#include "areo/ferment/drink.hpp"
#include "areo/instruments/stem.hpp"
#include "areo/measurement/alcohol.hpp"
#include "areo/measurement/convert.hpp"
#include "areo/measurement/correct.hpp"
#include "areo/measurement/solution.hpp"
#include "areo/physics/mixture.hpp"
#include "areo/physics/scale_name.hpp"

namespace areo::measurement {
namespace {

using instruments::Hydrometer;
using instruments::HydrometerReading;

HydrometerReading reading(double indication, double t_c = 20) {
  HydrometerReading r;
  r.indication = indication;
  r.temperature.indication_c = t_c;
  return r;
}

// The same instrument at each call.
Calibrated unchecked() {
  static const Hydrometer stem{.name = "stem"};
  return Calibrated::never_checked(stem);
}

Calibrated checked(double offset, double u) {
  Calibrated c = unchecked();
  c.correction = {};
  c.correction.offset = offset;
  c.correction.u_offset = u;
  c.correction.checks = 3;
  c.correction.checked_lo = 0.99;
  c.correction.checked_hi = 1.1;
  return c;
}

// --- convert ---

// [nbsc440] table 114: apparent SG 20/20 1.04003 is 10 % sucrose; ICUMSA: 1.040 is 9.99249 %.
TEST(Convert, ApparentGravityToPlato) {
  const Result r = convert(physics::apparent_sg_20_20, 1.04, 0, std::vector{physics::plato_20});
  EXPECT_NEAR(r.at("plato").value.estimate, 9.99249, 0.0003);  // [sps4] gives 9.9923
}

TEST(Convert, TypedDigitsAreTheUncertainty) {
  const Result r = convert(physics::sg_20_20, 1.048, 0.0005,
                           std::vector{physics::sg_20_20, physics::oechsle_20});
  EXPECT_EQ(r.at("sg_20_20").value.estimate, 1.048);
  EXPECT_NEAR(r.at("sg_20_20").value.u, 0.0005 / std::sqrt(3.0), 1e-12);
  EXPECT_NEAR(r.at("oechsle").value.u, 0.5 / std::sqrt(3.0), 1e-6);
}

TEST(Convert, NoNumberIsWithoutUncertaintyOfItsFormula) {
  const Result r = convert(physics::sg_20_20, 1.048, 0,
                           std::vector{physics::specific_gravity_scale<Ref60F>(), physics::plato_20,
                                       physics::density_20, physics::sugar_g_l_20});
  for (const Quantity& q : r.quantities) EXPECT_GT(q.value.u, 0) << q.key;
  // 0.06 % of the sugar's share and 0.015 kg/m³, together 0.068 % at 12 % sugar.
  EXPECT_NEAR(r.at("plato").value.u, std::hypot(0.0006, 0.015 / 47.9) * 11.92, 0.0005);
}

TEST(Convert, SaysWhenItIsLighterThanWater) {
  EXPECT_TRUE(convert(physics::sg_20_20, 1.01, 0, std::vector{physics::plato_20}).notes.empty());
  EXPECT_EQ(convert(physics::sg_20_20, 0.996, 0, std::vector{physics::plato_20}).notes.size(), 1U);
}

TEST(Convert, StrengthsOfTheTables) {
  EXPECT_NEAR(convert_strength(StrengthByVolume{12}, 0).at("alcohol_percent_mass").value.estimate,
              9.64099, 5e-6);
  EXPECT_NEAR(convert_strength(StrengthByMass{9.64099}, 0).at("alcohol_percent_vol").value.estimate,
              12, 1e-5);
  EXPECT_THROW((void)convert_strength(StrengthByVolume{101}, 0), Error);
  EXPECT_THROW((void)convert_strength(StrengthByMass{std::nan("")}, 0), Error);
}

TEST(ScaleNames, EveryWordAndKeyIsUnderstood) {
  for (const auto& s : physics::offered_scales()) {
    EXPECT_EQ(physics::scale_from_word(physics::scale_key(s)), s);
    EXPECT_FALSE(physics::scale_name(s).empty());
  }
  EXPECT_EQ(physics::scale_from_word("SG 15/15").sample_c, 15);
  EXPECT_EQ(physics::scale_from_word("sg17.5/17.5").water_c, 17.5);
  EXPECT_NEAR(physics::scale_from_word("kg/m3@60F").sample_c, 15.5556, 1e-4);
  EXPECT_THROW((void)physics::scale_from_word("XY"), ParseError);
  EXPECT_THROW((void)physics::scale_from_word("SG15"), ParseError);
  EXPECT_THROW((void)physics::scale_from_word("SG@15C"), ParseError);
}

// --- correct ---

TEST(Correct, AtTheReferenceTemperatureNothingChanges) {
  const Result r = correct(checked(0, 0), reading(1.048), {});
  EXPECT_NEAR(r.at("sg_20_20").value.estimate, 1.048, 1e-9);
  EXPECT_NEAR(r.at("correction").value.estimate, 0, 1e-9);
}

// [nbsc440] saccharometer table: 10 Brix read at 30 °C needs +0.63; stated agreement 0.035 Brix.
TEST(Correct, BrixAtThirtyDegrees) {
  Hydrometer h = instruments::ordinary_hydrometer(physics::brix_20);
  const Calibrated brix{h, checked(0, 0).correction};
  const Result r = correct(brix, reading(10, 30), {});
  EXPECT_NEAR(r.at("correction").value.estimate, 0.63, 0.035);
}

TEST(Correct, AddsTheCalibration) {
  const Result r = correct(checked(0.0013, 0.0002), reading(1.048), {});
  EXPECT_NEAR(r.at("correction").value.estimate, 0.0013, 1e-9);
}

TEST(Correct, AnUnknownTemperatureIsSaidAndCosts) {
  HydrometerReading r = reading(1.048);
  r.temperature = instruments::assumed_temperature(celsius_point(20));
  const Result unknown = correct(checked(0, 0), r, {});
  const Result known = correct(checked(0, 0), reading(1.048), {});
  EXPECT_EQ(unknown.notes.size(), 1U);
  EXPECT_GT(unknown.at("sg_20_20").value.u, 1.5 * known.at("sg_20_20").value.u);
}

TEST(Correct, OutsideTheCheckedRangeItWarns) {
  Calibrated c = checked(0, 0.0003);
  c.correction.checked_hi = 1.02;
  c.correction.u_slope_beyond = 0.01;
  const Result r = correct(c, reading(1.06), {});
  ASSERT_EQ(r.notes.size(), 1U);
  EXPECT_EQ(r.notes[0],
            (Note{note::OutsideChecked{c.hydrometer.name, 1.06, c.correction.checked_lo, 1.02}}));
  EXPECT_GT(r.at("sg_20_20").value.u, 0.0004);
}

// A drink of 4 % alcohol and 5 % extract at 30 °C, treated as sugar water, is off by 0.1 .. 0.2
// kg/m³.
TEST(Correct, AlcoholExpandsMoreThanSugar) {
  const physics::Liquid drink = ferment::fermented(ExtractFraction{0.13}, EthanolFraction{0.04});
  const Calibrated c = checked(0, 0);
  const double shown = instruments::usual_indication(
      c.hydrometer, physics::density(drink, celsius_point(30)), celsius_point(30), drink.ethanol);
  const double original = physics::mark_from_liquid(physics::sg_20_20, {ExtractFraction{0.13}});
  const double truth = physics::mark_from_liquid(physics::sg_20_20, drink);
  const double fermenting = correct_fermenting(c, reading(shown, 30), c, reading(original), {})
                                .at("sg_20_20")
                                .value.estimate;
  const double sugar = correct(c, reading(shown, 30), {}).at("sg_20_20").value.estimate;
  EXPECT_NEAR(fermenting, truth, 1e-9);
  // Taken as sugar, the drink also pulls as water does: 13 mN/m more, on 5 mm and 25 g.
  const double pull = std::numbers::pi * 0.005 * 0.0130 / (0.025 * 9.80665) * 1013;
  EXPECT_GT(std::abs(sugar - truth) * 998.2, pull - 0.3);
  EXPECT_LT(std::abs(sugar - truth) * 998.2, pull + 0.3);
}

double share_of_yield(const Result& r) {
  const auto inputs = r.inputs.all();
  for (std::size_t i = 0; i < inputs.size(); ++i)
    if (inputs[i].name.starts_with("yield")) return std::abs(r.shares[0][i]);
  ADD_FAILURE() << "no yield among the inputs";
  return 0;
}

// What a part of the alcohol expands more than sugar: at 30 °C some part of the 0.05 to 0.3 kg/m³
// that alcohol makes there, and of what it takes from the pull of the surface, 0.8 kg/m³. The part
// is what the yield leaves open of a strength by gravities: 3 % at the most, 2 % at the least.
TEST(Correct, AFermentingSampleCarriesTheYield) {
  const Calibrated c = checked(0, 0);
  const auto at = [&](double t_c) {
    return share_of_yield(correct_fermenting(c, reading(1.020, t_c), c, reading(1.053), {}));
  };
  EXPECT_LT(at(20) * 998.2, 0.8 * 0.03);
  EXPECT_GT(at(30) * 998.2, 0.05 * 0.02);
  EXPECT_LT(at(30) * 998.2, (0.3 + 0.8) * 0.03);
}

TEST(Correct, SugarScalesOfADrinkShowTheApparentExtract) {
  const Calibrated c = checked(0, 0);
  const std::vector to{physics::plato_20, physics::oechsle_20};
  const Result r = correct_fermenting(c, reading(1.020), c, reading(1.050), to);
  EXPECT_EQ(r.at("plato").name, "apparent extract, Plato");
  EXPECT_EQ(r.at("oechsle").name, "Oechsle");
  EXPECT_EQ(correct(c, reading(1.050), to).at("plato").name, "Plato");
}

// An offset that pushes a possible reading out of what sugar and water can be.
TEST(Correct, NamesTheReadingThatIsNoSugarLiquid) {
  const Calibrated c = checked(-0.05, 0);
  const auto refusal = [&](auto&& compute) -> std::string {
    try {
      (void)compute();
      return "accepted";
    } catch (const Error& e) {
      EXPECT_EQ(e.code, Errc::domain);
      return e.what();
    }
  };
  const std::string expected =
      "0.995 of stem, corrected 0.945, at 20 °C is not a sugar liquid: they go from 0.9627 to "
      "1.449 "
      "[sps4]";
  EXPECT_EQ(refusal([&] { return correct(c, reading(0.995), {}); }), expected);
  EXPECT_EQ(refusal([&] { return alcohol(c, reading(0.995), c, reading(1.050)); }), expected);
  EXPECT_EQ(refusal([&] { return correct_fermenting(c, reading(0.995), c, reading(1.050), {}); }),
            expected);
}

// --- alcohol ---

double u_alcohol_without_yield(const AlcoholResult& a) {
  double sum = 0;
  const auto inputs = a.result.inputs.all();
  for (std::size_t i = 0; i < inputs.size(); ++i)
    if (!inputs[i].name.starts_with("yield")) sum += std::pow(a.result.shares[0][i], 2);
  return std::sqrt(sum);
}

TEST(Alcohol, KnownFerment) {
  const auto a = alcohol(checked(0, 0), reading(1.010), checked(0, 0), reading(1.050));
  EXPECT_EQ(a.state, Fermentation::measured);
  // 5.22 for a present gravity of 1.010; but a drink pulls less than water, and reads 0.00094 high.
  EXPECT_NEAR(a.result.at("alcohol_percent_vol").value.estimate, 5.22 + 0.13, 0.005);
  EXPECT_NEAR(a.result.at("rule_of_thumb_percent_vol").value.estimate, 5.25 + 131.25 * 0.00094,
              0.001);
  const double re = a.result.at("real_extract_percent").value.estimate;
  EXPECT_GT(re, a.result.at("apparent_extract_percent").value.estimate);
}

// One instrument: its unknown error is in both readings and cancels in the difference.
TEST(Alcohol, TheDifferenceProfitsFromOneInstrument) {
  const auto one = alcohol(unchecked(), reading(1.010), unchecked(), reading(1.050));
  const auto two = alcohol(Calibrated::never_checked(Hydrometer{}), reading(1.010),
                           Calibrated::never_checked(Hydrometer{}), reading(1.050));
  EXPECT_NEAR(one.result.at("alcohol_percent_vol").value.estimate,
              two.result.at("alcohol_percent_vol").value.estimate, 1e-9);
  EXPECT_LT(u_alcohol_without_yield(one), 0.6 * u_alcohol_without_yield(two));
}

TEST(Alcohol, TheSameThermometerIsEnteredOnce) {
  HydrometerReading og = reading(1.050, 24);
  HydrometerReading fg = reading(1.010, 24);
  instruments::Correction off;
  off.u_offset = 1.0;
  off.checks = 1;
  off.checked_lo = 0;
  off.checked_hi = 100;
  const instruments::Thermometer probe{.name = "probe"};
  for (HydrometerReading* r : {&og, &fg}) {
    r->temperature.thermometer = probe;
    r->temperature.correction = off;
  }
  const auto a = alcohol(checked(0, 0), fg, checked(0, 0), og);
  int offsets = 0;
  for (const auto& in : a.result.inputs.all()) offsets += in.name == "probe: offset of the scale";
  EXPECT_EQ(offsets, 1);
}

TEST(Alcohol, EqualGravitiesAreNoMeasurableChange) {
  EXPECT_EQ(alcohol(checked(0, 0), reading(1.05), checked(0, 0), reading(1.05)).state,
            Fermentation::no_change);
}

TEST(Alcohol, PresentAboveOriginalHasNoAlcohol) {
  const auto a = alcohol(checked(0, 0), reading(1.052), checked(0, 0), reading(1.050));
  EXPECT_EQ(a.state, Fermentation::above);
  EXPECT_THROW((void)a.result.at("alcohol_percent_vol"), Error);
  EXPECT_NEAR(a.result.at("sg_20_20_present").value.estimate, 1.052, 1e-6);
}

TEST(Alcohol, RefusesWaterAsOriginalAndTooLowPresent) {
  EXPECT_THROW((void)alcohol(checked(0, 0), reading(0.995), checked(0, 0), reading(1.000)), Error);
  Calibrated wide = checked(0, 0);
  wide.hydrometer.lo = 0.9;
  EXPECT_THROW((void)alcohol(wide, reading(0.97), wide, reading(1.05)), Error);
}

// Simulated ferments with everything that areo says it does not know drawn at random: the stated
// 95 % interval covers the truth in 95 % of cases. 2000 seeded cases have a standard deviation of
// 0.5 %; inputs that are not normal leave the linear interval a little wide.
TEST(Alcohol, StatedIntervalsCoverTheTruth) {
  std::mt19937_64 random{7};
  const auto uniform = [&](double half) {
    return std::uniform_real_distribution<double>{-half, half}(random);
  };
  const auto triangle = [&](double half) { return (uniform(half) + uniform(half)) / 2; };
  std::normal_distribution<double> normal;
  constexpr double u_offset = 0.0004;
  constexpr int runs = 2000;
  int covered = 0;
  for (int i = 0; i < runs; ++i) {
    const double oe = 0.12 + uniform(0.05);
    // No more alcohol than the extract makes.
    const double all =
        ferment::ethanol_from_extracts(ExtractFraction{oe}, ExtractFraction{0}).value();
    const double a = std::min(0.03 + uniform(0.01), all);
    const ferment::Yield yield{ferment::balling_yield.extract_per_ethanol +
                               ferment::yield_uncertainty * normal(random)};
    const physics::Liquid drink =
        ferment::fermented(ExtractFraction{oe}, EthanolFraction{a}, yield);
    const double true_strength = ferment::strength_by_volume(drink).value();
    const double offset = u_offset * normal(random);
    const Calibrated c = checked(0, u_offset);
    const auto observe = [&](const physics::Liquid& liquid) {
      const double t = 22 + uniform(6);
      const double ideal =
          instruments::usual_indication(c.hydrometer, physics::density(liquid, celsius_point(t)),
                                        celsius_point(t), liquid.ethanol);
      const double surface = 5e-3 * std::numbers::pi * 0.005 / (0.025 * 9.80665);  // 5 mN/m
      return reading(ideal - offset + triangle(0.001) + uniform(surface), t + uniform(0.5));
    };
    const auto first = observe({ExtractFraction{oe}});
    const auto now = observe(drink);
    const auto v = alcohol(c, now, c, first).result.at("alcohol_percent_vol").value;
    if (std::abs(v.estimate - true_strength) <= v.expanded()) ++covered;
  }
  EXPECT_GT(covered, runs * 0.935);
  EXPECT_LT(covered, runs * 0.97);
}

// A present gravity a little above the original is no measurable change; further above it is none.
TEST(Alcohol, ALittleAboveIsNoMeasurableChange) {
  const Calibrated c = checked(0, 0.0004);
  const auto state = [&](double present) {
    return alcohol(c, reading(present, 20), c, reading(1.0480, 20)).state;
  };
  EXPECT_EQ(state(1.0480), Fermentation::no_change);
  EXPECT_EQ(state(1.0482), Fermentation::no_change);
  EXPECT_EQ(state(1.0500), Fermentation::above);  // 0.26 % vol below none, U about 0.17
  EXPECT_EQ(state(1.0700), Fermentation::above);
}

TEST(Alcohol, BeyondTheStrengthsComparedItSaysSo) {
  const Calibrated c = checked(0, 0.0004);
  const auto notes = [&](double present) {
    return alcohol(c, reading(present, 20), c, reading(1.0900, 20)).result.method_notes;
  };
  EXPECT_EQ(
      notes(1.010),
      (std::vector<Note>{note::BeyondComparison{ferment::strongest_compared_percent_vol, true}}));
  EXPECT_EQ(notes(1.050), std::vector<Note>{});
}

// --- the model behind a result ---

// It outlives everything that it was built from, and gives the quantities again.
void expect_model_stands(const Result& r) {
  const std::vector<double> x = r.inputs.estimates();
  const std::vector<double> y = r.model(uncertainty::Point{x});
  ASSERT_EQ(y.size(), r.quantities.size());
  for (std::size_t k = 0; k < y.size(); ++k) EXPECT_EQ(y[k], r.quantities[k].value.estimate) << k;
}

TEST(Model, CanBeEvaluatedAgain) {
  const std::vector<physics::Scale>* gone = new std::vector{physics::plato_20, physics::density_20};
  const Calibrated c = checked(0, 0.0004);
  const Result converted = convert(physics::sg_20_20, 1.048, 0.0005, *gone);
  const Result corrected = correct(c, reading(1.048, 22), *gone);
  const Result fermenting = correct_fermenting(c, reading(1.020, 22), c, reading(1.048, 21), *gone);
  delete gone;
  expect_model_stands(converted);
  expect_model_stands(corrected);
  expect_model_stands(fermenting);
  expect_model_stands(alcohol(c, reading(1.010, 20), c, reading(1.048, 21)).result);
  expect_model_stands(alcohol(c, reading(1.050, 20), c, reading(1.048, 21)).result);
  instruments::TemperatureReading t;
  expect_model_stands(describe_solution(calibration::sugar_solution(50, 450), t,
                                        std::vector{c.hydrometer},
                                        std::vector{instruments::Refractometer{}}));
}

// --- solution ---

TEST(Solution, ShowsWhatEachInstrumentShould) {
  Hydrometer sg60;
  sg60.scale = physics::specific_gravity_scale<Ref60F>();
  instruments::TemperatureReading t;
  t.indication_c = 20;
  const Result r = describe_solution(calibration::sugar_solution(50, 450), t, std::vector{sg60});
  EXPECT_NEAR(r.at("mass_percent").value.estimate, 9.98, 0.01);
  const double w = r.at("mass_percent").value.estimate / 100;
  EXPECT_NEAR(r.at("sg_20_20").value.estimate,
              physics::mark_from_liquid(physics::sg_20_20, {ExtractFraction{w}}), 1e-9);
  EXPECT_LT(r.at("shows_sg_60f_60f").value.estimate, r.at("sg_20_20").value.estimate);
}

}  // namespace
}  // namespace areo::measurement
