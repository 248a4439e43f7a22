// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/measurement/refract.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "areo/core/error.hpp"
#include "areo/ferment/balling.hpp"
#include "areo/ferment/drink.hpp"
#include "areo/physics/mixture.hpp"
#include "note_of.hpp"

namespace areo::measurement {
namespace {

using physics::Liquid;
constexpr double t_c = 22;

RefractometerSample prism(double brix, double at_c = t_c) {
  RefractometerSample s;
  // The same instrument at each call.
  static const auto one =
      instruments::ordinary_refractometer(instruments::RefractometerScale::brix);
  s.instrument = CalibratedRefractometer::never_checked(one);
  s.reading.indication = brix;
  s.reading.temperature.indication_c = at_c;
  return s;
}
// What a perfect instrument shows in this liquid.
RefractometerSample prism(const Liquid& liquid) {
  return prism(ideal_indication(instruments::Refractometer{}, liquid, celsius_point(t_c)));
}
HydrometerSample stem(const Liquid& liquid) {
  HydrometerSample s;
  static const auto one = instruments::ordinary_hydrometer(physics::sg_20_20);
  s.instrument = Calibrated::never_checked(one);
  s.reading.indication =
      usual_indication(s.instrument.hydrometer, physics::density(liquid, celsius_point(t_c)),
                       celsius_point(t_c), liquid.ethanol);
  s.reading.temperature.indication_c = t_c;
  return s;
}
Liquid of(double extract, double ethanol) {
  return {ExtractFraction{extract}, EthanolFraction{ethanol}};
}
double strength(const AlcoholResult& a) {
  return a.result.at("alcohol_percent_vol").value.estimate;
}

const ExtractKind sucrose{};
const ExtractKind mixed{"mixed", physics::unknown_extract_optics, "test"};

TEST(Refract, UnfermentedIsTheTruePercent) {
  const Result r = refract(prism(of(0.125, 0)), sucrose, std::array{physics::oechsle_20});
  EXPECT_NEAR(r.at("extract_percent").value.estimate, 12.5, 1e-8);
  EXPECT_NEAR(r.at("sg_20_20").value.estimate,
              physics::mark_from_liquid(physics::sg_20_20, of(0.125, 0)), 1e-10);
  EXPECT_NEAR(r.at("oechsle").value.estimate, 1000 * (r.at("sg_20_20").value.estimate - 1), 1e-9);
  // [itct1936] at 22 °C: + 0.14 at 10 %, + 0.15 at 15 %; within its last digit and the stated 0.03.
  EXPECT_NEAR(r.at("correction").value.estimate, 0.145, 0.03);
  EXPECT_NE(note_of<note::NeverChecked>(r), nullptr);
}

TEST(Refract, CompensationTakesTheTemperatureOutAndADoubtIn) {
  RefractometerSample s = prism(12.5, 26);
  const Result plain = refract(s, sucrose, {});
  s.instrument.refractometer.compensated = true;
  const Result compensated = refract(s, sucrose, {});
  EXPECT_NEAR(compensated.at("extract_percent").value.estimate, 12.5, 1e-8);
  EXPECT_GT(plain.at("extract_percent").value.estimate, 12.8);
  // Temperature ± 0.5 °C is 0.022 Brix without it; with it a division, rectangular. That the sum
  // below holds both makes it larger, by half of 0.022² over 0.17.
  const double u_plain = plain.at("extract_percent").value.u;
  const double u_division = 0.2 / std::sqrt(3.0);
  EXPECT_NEAR(compensated.at("extract_percent").value.u, std::hypot(u_plain, u_division), 0.002);
}

TEST(Refract, AnIndexScaleShowsTheSame) {
  RefractometerSample s;
  s.instrument = CalibratedRefractometer::never_checked(
      instruments::ordinary_refractometer(instruments::RefractometerScale::index));
  s.reading.indication = physics::refractive_index(of(0.125, 0), celsius_point(t_c)).value();
  s.reading.temperature.indication_c = t_c;
  const Result r = refract(s, sucrose, {});
  EXPECT_NEAR(r.at("extract_percent").value.estimate, 12.5, 1e-8);
  EXPECT_THROW((void)r.at("correction"), Error);  // percent minus index would be nonsense
}

TEST(Refract, BelowZeroSaysReZero) {
  try {
    (void)refract(prism(-0.4), sucrose, {});
    FAIL() << "accepted";
  } catch (const Error& e) {
    EXPECT_NE(e.hint.find("re-zero in water"), std::string::npos) << e.hint;
  }
  EXPECT_THROW((void)refract(prism(std::nan("")), sucrose, {}), Error);
  EXPECT_THROW((void)refract(prism(12, 5), sucrose, {}), Error);
  EXPECT_THROW((void)refract(prism(12, std::nan("")), sucrose, {}), Error);
}

TEST(RefractFermenting, FindsTheDrinkOnTheBallingLine) {
  for (const double oe : {0.05, 0.12, 0.25})
    for (const double part : {0.3, 0.7, 0.95}) {
      const ExtractFraction original{oe};
      const double all = ferment::ethanol_from_extracts(original, ExtractFraction{0}).value();
      const Liquid drink = ferment::fermented(original, EthanolFraction{part * all});
      const double truth = ferment::strength_by_volume(drink).value();
      const Liquid start{original};
      EXPECT_NEAR(strength(refract_fermenting(prism(drink), prism(start), sucrose)), truth, 1e-7);
      EXPECT_NEAR(strength(refract_fermenting(prism(drink), stem(start), sucrose)), truth, 1e-7);
    }
}

// Both readings of one instrument err together. By hand: near 12 % the strength changes by 0.95 %
// vol per Brix at the start and by 1.0 to 1.1 per Brix now, with the other sign, so nearly all of
// an offset goes. What the yield of the ferment leaves open is the same with one or two.
TEST(RefractFermenting, OneInstrumentTwiceProfits) {
  const Liquid start = of(0.12, 0);
  const Liquid drink = ferment::fermented(start.extract, EthanolFraction{0.03});
  RefractometerSample other = prism(start);
  other.instrument.refractometer.identity = Identity{};
  const auto u = [&](const OriginalSample& original) {
    const Result r = refract_fermenting(prism(drink), original, sucrose).result;
    double variance = 0;  // of the strength, which is the first quantity
    for (std::size_t i = 0; i < r.shares[0].size(); ++i)
      if (!r.inputs.all()[i].name.starts_with("yield")) variance += std::pow(r.shares[0][i], 2);
    return std::sqrt(variance);
  };
  EXPECT_LT(u(prism(start)), 0.7 * u(other));
}

TEST(RefractFermenting, States) {
  const Liquid start = of(0.12, 0);
  EXPECT_EQ(refract_fermenting(prism(start), prism(start), sucrose).state, Fermentation::no_change);
  const auto above = refract_fermenting(prism(of(0.13, 0)), prism(start), sucrose);
  EXPECT_EQ(above.state, Fermentation::above);
  EXPECT_THROW((void)above.result.at("alcohol_percent_vol"), Error);
  // Lower than all of it fermented, by more than the uncertainty: 6 % ethanol alone still shows
  // some 2.7 Brix.
  EXPECT_THROW((void)refract_fermenting(prism(1.5), prism(start), sucrose), Error);
  EXPECT_THROW((void)refract_fermenting(prism(0.1), prism(of(0, 0)), sucrose), Error);
}

// Two instruments in the same unfermented liquid need not agree to the last digit.
TEST(RefractFermenting, TwoInstrumentsAgreeWithinTheirUncertainty) {
  const Liquid start = of(0.12, 0);
  const auto state = [&](double brix_above) {
    RefractometerSample now = prism(start);
    now.reading.indication += brix_above;
    return refract_fermenting(now, stem(start), sucrose).state;
  };
  EXPECT_EQ(state(0.01), Fermentation::no_change);
  EXPECT_EQ(state(0.3), Fermentation::no_change);
  EXPECT_EQ(state(1.5), Fermentation::above);  // some 1.4 % vol below none, U about 0.7
  EXPECT_EQ(state(5), Fermentation::above);
}

TEST(RefractWithHydrometer, FindsTheDrinkWithoutAnOriginal) {
  for (const double extract : {0.005, 0.04, 0.10})
    for (const double ethanol : {0.005, 0.04, 0.11}) {
      const Liquid drink = of(extract, ethanol);
      const auto a = refract_with_hydrometer(prism(drink), stem(drink), sucrose);
      EXPECT_NEAR(strength(a), ferment::strength_by_volume(drink).value(), 1e-7);
      EXPECT_NEAR(a.result.at("real_extract_percent").value.estimate, 100 * extract, 1e-7);
      EXPECT_NEAR(a.result.at("original_extract_percent").value.estimate,
                  100 * ferment::original_extract(drink).value(), 1e-7);
      EXPECT_NE(note_of<note::Limits>(a.result), nullptr);
    }
}

// Sensitivities as worked out for 2 to 13 % vol: + 0.001 in SG, - 0.365 % vol; + 1.43e-4 in index,
// the 0.1 Brix of a thin solution, + 0.141 % vol; "nearly constant", taken as one printed digit.
// That is for a known density; in a stronger drink the float stands higher, so a hydrometer's
// reading moves more: by hand, 1 % vol is 0.0079 of mass, and takes 0.0727 N/m times 0.2327 / (p +
// 0.0306) of that from the pull of the surface, pi D / (m g) of it in gravity.
TEST(RefractWithHydrometer, Sensitivities) {
  for (const double ethanol : {0.02, 0.05, 0.10}) {
    const Liquid drink = of(0.04, ethanol);
    const auto at = [&](double sg, double index) {
      HydrometerSample h = stem(drink);
      h.reading.indication += sg;
      RefractometerSample r = prism(drink);
      r.instrument = CalibratedRefractometer::never_checked(
          instruments::ordinary_refractometer(instruments::RefractometerScale::index));
      r.reading.indication = physics::refractive_index(drink, celsius_point(t_c)).value() + index;
      return strength(refract_with_hydrometer(r, h, sucrose));
    };
    const double per_percent = 0.0079 * 0.0727 * 0.2327 / (ethanol + 0.0306) * std::numbers::pi *
                               0.005 / (0.025 * 9.80665);
    const double more = 1 / (1 - 365 * per_percent);
    EXPECT_NEAR((at(0.0005, 0) - at(-0.0005, 0)), -0.365 * more, 0.002) << ethanol;
    EXPECT_NEAR((at(0, 0.715e-4) - at(0, -0.715e-4)), 0.141 * more, 0.001) << ethanol;
  }
}

// The original gravity follows by Balling's balance, whose yield y counts there. By hand for
// A = E = 4 %: p = (y A + E) / (1 + (y - 1) A) = 11.76 %, and dp for dy = 0.0783 is
// (1 - p) A dy / (1 + (y - 1) A) = 0.265 %. The alcohol itself needs no balance.
TEST(RefractWithHydrometer, TheOriginalCarriesTheYield) {
  const Liquid drink = of(0.04, 0.04);
  const Result r = refract_with_hydrometer(prism(drink), stem(drink), sucrose).result;
  const auto share_of_yield = [&](const char* key) {
    for (std::size_t k = 0; k < r.quantities.size(); ++k)
      if (r.quantities[k].key == key)
        for (std::size_t i = 0; i < r.shares[k].size(); ++i)
          if (r.inputs.all()[i].name.starts_with("yield")) return std::abs(r.shares[k][i]);
    return std::nan("");
  };
  EXPECT_NEAR(share_of_yield("original_extract_percent"), 0.265, 0.0005);
  EXPECT_EQ(share_of_yield("alcohol_percent_vol"), 0);
}

// 3 % of what 5 % extract refracts is 0.15 Brix, and that is 0.22 % vol by the sensitivity above;
// to two digits, as the 3 % and the 0.15 have no more.
TEST(RefractWithHydrometer, TheKindOfExtractCounts) {
  const Liquid drink = of(0.05, 0.04);
  const auto u = [&](const ExtractKind& kind) {
    return refract_with_hydrometer(prism(drink), stem(drink), kind)
        .result.at("alcohol_percent_vol")
        .value.u;
  };
  EXPECT_NEAR(std::sqrt(std::pow(u(mixed), 2) - std::pow(u(sucrose), 2)), 0.22, 0.005);
}

TEST(RefractWithHydrometer, ContradictionsAreNamedAndNotClamped) {
  const Liquid syrup = of(0.12, 0);
  RefractometerSample low = prism(syrup);
  const auto none = refract_with_hydrometer(low, stem(syrup), sucrose);
  EXPECT_EQ(none.state, Fermentation::no_change);
  low.reading.indication -= 1;  // at 12 % a Brix is 1.56e-3 in index, 1.54 % vol
  const auto negative = refract_with_hydrometer(low, stem(syrup), sucrose);
  EXPECT_EQ(negative.state, Fermentation::contradiction);
  // Below no alcohol the sensitivity, stated from 2 % vol on, falls on a little, by 1 %.
  EXPECT_NEAR(strength(negative), -1.54, 0.02);
  low.reading.indication -= 5;
  EXPECT_THROW((void)refract_with_hydrometer(low, stem(syrup), sucrose), Error);
}

TEST(RefractModel, CanBeEvaluatedAgain) {
  const Liquid start = of(0.12, 0);
  const Liquid drink = ferment::fermented(start.extract, EthanolFraction{0.03});
  for (const Result& r : {refract(prism(start), sucrose, std::vector{physics::plato_20}),
                          refract_fermenting(prism(drink), prism(start), mixed).result,
                          refract_fermenting(prism(drink), stem(start), mixed).result,
                          refract_fermenting(prism(start), prism(drink), mixed).result,
                          refract_with_hydrometer(prism(drink), stem(drink), mixed).result}) {
    const std::vector<double> x = r.inputs.estimates();
    const std::vector<double> y = r.model(uncertainty::Point{x});
    ASSERT_EQ(y.size(), r.quantities.size());
    for (std::size_t k = 0; k < y.size(); ++k) EXPECT_EQ(y[k], r.quantities[k].value.estimate) << k;
  }
}

TEST(RefractWithHydrometer, SaysWhichReadingLimits) {
  const Liquid drink = of(0.04, 0.04);
  HydrometerSample h = stem(drink);
  RefractometerSample r = prism(drink);
  r.instrument.correction.u_offset = 0.5;
  const auto limits = [&] {
    const AlcoholResult a = refract_with_hydrometer(r, h, sucrose);
    const note::Limits* n = note_of<note::Limits>(a.result);
    EXPECT_NE(n, nullptr);
    return n != nullptr ? *n : note::Limits{};
  };
  EXPECT_GT(limits().refractometer, 0.5);
  r.instrument.correction.u_offset = 0.01;
  h.instrument.correction.u_offset = 0.005;
  EXPECT_GT(limits().hydrometer, 0.5);
}

}  // namespace
}  // namespace areo::measurement
