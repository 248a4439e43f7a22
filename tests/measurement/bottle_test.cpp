// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/measurement/bottle.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <string>

#include "areo/analysis/budget.hpp"
#include "areo/core/error.hpp"
#include "areo/ferment/drink.hpp"
#include "areo/ferment/stoichiometry.hpp"
#include "areo/measurement/original.hpp"
#include "areo/physics/carbon_dioxide.hpp"
#include "areo/physics/mixture.hpp"

namespace areo::measurement {
namespace {

constexpr double nan = std::numeric_limits<double>::quiet_NaN();

AlcoholResult drink(double original, double present,
                    ferment::Culture culture = ferment::Culture::yeast) {
  const auto stem = Calibrated::never_checked({.name = "stem-1", .lo = 0.980, .hi = 1.180});
  instruments::HydrometerReading first, now;
  first.indication = original;
  now.indication = present;
  return alcohol(stem, now, stem, first, culture);
}

const AlcoholResult& usual() {
  static const AlcoholResult d = drink(1.048, 1.010);
  return d;
}

// A plan that is known exactly, so that only the drink and the formulas are uncertain.
BottlePlan exact(double storage_c = 20) {
  BottlePlan p;
  p.storage_c = storage_c;
  p.storage_half_width_c = 0;
  p.headspace_half_width = 0;
  return p;
}

double value(const BottleResult& b, const std::string& key) {
  return b.result.at(key).value.estimate;
}
double u(const BottleResult& b, const std::string& key) { return b.result.at(key).value.u; }
double pressure(const BottlePlan& plan, const AlcoholResult& of = usual()) {
  return value(bottle(of, plan), "gauge_pressure_all_bar");
}

// By hand: all extract, the middle of the yields, half saturated at 20 °C and 1.01325 bar.
TEST(Bottle, IsTheBalanceByHand) {
  const BottleResult b = bottle(usual(), exact());
  const auto& r = usual().result;
  const physics::Liquid now{extract_fraction(Plato{r.at("real_extract_percent").value.estimate}),
                            EthanolFraction{r.at("alcohol_percent_mass").value.estimate / 100}};
  const double sugar = now.extract.value() * physics::density(now, celsius_point(20)).value();
  const double yield = (0.9565 / 2.0665 + ferment::carbon_dioxide_per_sucrose) / 2;
  const double k = physics::solubility_in_water(celsius_point(20));
  const double k_now =
      k * physics::solubility_ratio(ferment::strength_by_volume(now), MassConcentration{sugar});
  const double dissolved = 0.5 * 1.01325 * k_now;
  EXPECT_NEAR(value(b, "sugar_all_g_l"), sugar, 1e-9);
  EXPECT_NEAR(value(b, "co2_dissolved_g_l"), dissolved, 1e-9);
  EXPECT_NEAR(value(b, "co2_now_g_l"), dissolved, 1e-9);
  EXPECT_NEAR(value(b, "co2_all_g_l"), dissolved + yield * sugar, 1e-9);
  EXPECT_NEAR(value(b, "co2_all_volumes"), (dissolved + yield * sugar) / 1.977, 1e-9);
  // Both temperatures are 20 °C: the air in the headspace and that outside are the same.
  const double p = value(b, "gauge_pressure_now_bar");
  const double headspace = 0.04 / 0.96 * 44.0095 / (0.08314463 * 293.15);
  EXPECT_NEAR(k_now * p / (1 + 0.0063 * p) + headspace * p, dissolved, 1e-9);
}

TEST(Bottle, KeepsTheInputsAndNotesOfTheReadings) {
  const BottleResult b = bottle(usual(), exact());
  EXPECT_EQ(b.result.notes, usual().result.notes);
  EXPECT_EQ(b.result.instruments.size(), usual().result.instruments.size());
  ASSERT_GT(b.result.inputs.all().size(), usual().result.inputs.all().size());
  for (std::size_t i = 0; i < usual().result.inputs.all().size(); ++i)
    EXPECT_EQ(b.result.inputs.all()[i].name, usual().result.inputs.all()[i].name);
  // The extract is as uncertain as the reading left it, in another unit.
  const auto& extract = usual().result.at("real_extract_percent").value;
  EXPECT_NEAR(u(b, "sugar_all_g_l") / value(b, "sugar_all_g_l"), extract.u / extract.estimate,
              0.005);
}

TEST(Bottle, PressureRisesWithWarmthAndSugarAndFallsWithRoom) {
  double last = 0;
  for (const double c : {0.5, 5.0, 12.0, 20.0, 30.0, 39.5}) {
    EXPECT_GT(pressure(exact(c)), last) << c;
    last = pressure(exact(c));
  }
  last = 0;
  for (const double sg : {1.000, 1.005, 1.010, 1.020, 1.040}) {
    const double p = pressure(exact(), drink(1.048, sg));
    EXPECT_GT(p, last) << sg;
    last = p;
  }
  last = 1e9;
  for (const double share : {0.01, 0.04, 0.10, 0.30, 0.50}) {
    BottlePlan plan = exact();
    plan.headspace = share;
    EXPECT_LT(pressure(plan), last) << share;
    last = pressure(plan);
  }
}

// A drink read as dry has no extract that could ferment, as far as its reading tells.
TEST(Bottle, WithoutSugarAllAndNothingAreTheSame) {
  double dry = 0.985, sweet = 1.005;  // by halves to a real extract of zero
  for (int i = 0; i < 40; ++i) {
    const double middle = (dry + sweet) / 2;
    (drink(1.048, middle).result.at("real_extract_percent").value.estimate < 0 ? dry : sweet) =
        middle;
  }
  const BottleResult b = bottle(drink(1.048, sweet), exact());
  EXPECT_NEAR(value(b, "sugar_all_g_l"), 0, 1e-6);
  EXPECT_NEAR(value(b, "gauge_pressure_all_bar"), value(b, "gauge_pressure_now_bar"), 1e-6);
  // The range begins at nothing, and its upper end is not hidden.
  const auto range = range_of(b.result.at("sugar_all_g_l"));
  EXPECT_EQ(range.lo, 0);
  EXPECT_GT(range.hi, 1);
}

TEST(Bottle, ExpectedLiesBetweenNothingAndAll) {
  BottlePlan plan = exact();
  plan.expected_sg = 1.004;
  const BottleResult b = bottle(usual(), plan);
  EXPECT_GT(value(b, "sugar_expected_g_l"), 0);
  EXPECT_LT(value(b, "sugar_expected_g_l"), value(b, "sugar_all_g_l"));
  EXPECT_GT(value(b, "gauge_pressure_expected_bar"), value(b, "gauge_pressure_now_bar"));
  EXPECT_LT(value(b, "gauge_pressure_expected_bar"), value(b, "gauge_pressure_all_bar"));
  // The method is left out of this difference, and the original gravity nearly cancels: what is
  // left is the present reading, 2.1 g/L per 0.001.
  EXPECT_LT(u(b, "sugar_expected_g_l"), u(b, "sugar_all_g_l"));
  plan.expected_sg = usual().result.at("sg_20_20_present").value.estimate;
  EXPECT_NEAR(value(bottle(usual(), plan), "sugar_expected_g_l"), 0, 1e-6);
  // A thousandth lower: about 1.0 g/L more gas.
  const double before = value(bottle(usual(), plan), "co2_expected_g_l");
  *plan.expected_sg -= 0.001;
  EXPECT_NEAR(value(bottle(usual(), plan), "co2_expected_g_l") - before, 1.0, 0.05);
}

TEST(Bottle, UncertaintyReactsToWhatIsNotKnown) {
  const BottleResult b = bottle(usual(), exact());
  BottlePlan vague = exact();
  vague.storage_half_width_c = 5;
  EXPECT_GT(u(bottle(usual(), vague), "gauge_pressure_all_bar"), u(b, "gauge_pressure_all_bar"));
  vague = exact();
  vague.headspace_half_width = 0.03;
  EXPECT_GT(u(bottle(usual(), vague), "gauge_pressure_all_bar"), u(b, "gauge_pressure_all_bar"));
  // What is dissolved is known to lie between nothing and saturation.
  const double saturated = 2 * value(b, "co2_dissolved_g_l");
  EXPECT_NEAR(u(b, "co2_dissolved_g_l"), saturated / std::sqrt(12.0), 0.1 * saturated);
  // Each of these is in the budget of the pressure.
  for (const char* name :
       {"storage temperature", "carbon dioxide from extract", "solubility in water",
        "what alcohol and sugar take from it", "gas and solution beyond ideal laws",
        "saturation with carbon dioxide"}) {
    const auto parts =
        analysis::budget(bottle(usual(), BottlePlan{}).result, "gauge_pressure_all_bar");
    EXPECT_TRUE(std::any_of(parts.begin(), parts.end(), [&](const analysis::Contribution& c) {
      return c.input.name == name;
    })) << name;
  }
}

TEST(Bottle, PrimingClosesTheBalance) {
  BottlePlan plan = exact();
  plan.expected_sg = usual().result.at("sg_20_20_present").value.estimate;  // it has ended
  plan.carbonation = 5;
  plan.volume_l = 4;
  const BottleResult b = bottle(usual(), plan);
  ASSERT_EQ(b.priming, Priming::figure);
  const double sugar = value(b, "priming_sugar_g_l");
  const double yield =
      (ferment::carbon_dioxide_per_extract + ferment::carbon_dioxide_per_sucrose) / 2;
  // What it makes and what is there, in the drink and above it, with 5 g/L in the drink.
  const double total = yield * sugar + value(b, "co2_dissolved_g_l");
  const double p = value(b, "gauge_pressure_carbonated_bar");
  const double headspace = 0.04 / 0.96 * 44.0095 / (0.08314463 * 293.15);
  EXPECT_NEAR(total, 5 + headspace * p, 1e-6);
  EXPECT_NEAR(value(b, "priming_sugar_g"), 4 * sugar, 1e-9);
  EXPECT_GT(u(b, "priming_sugar_g"), 4 * u(b, "priming_sugar_g_l"));
  // The most of it comes on top of what everything could make.
  EXPECT_NEAR(value(b, "co2_primed_g_l") - value(b, "co2_all_g_l"),
              yield * (sugar + b.result.at("priming_sugar_g_l").value.expanded()), 1e-9);
  EXPECT_GT(value(b, "gauge_pressure_primed_bar"), value(b, "gauge_pressure_all_bar"));
  // Or of what it makes down to the stated end.
  EXPECT_NEAR(value(b, "co2_expected_primed_g_l") - value(b, "co2_expected_g_l"),
              yield * (sugar + b.result.at("priming_sugar_g_l").value.expanded()), 1e-9);
  EXPECT_GT(value(b, "gauge_pressure_expected_primed_bar"), p);
  EXPECT_LT(value(b, "gauge_pressure_expected_primed_bar"), value(b, "gauge_pressure_primed_bar"));
}

// What it takes then is not what it takes now.
TEST(Bottle, NoPrimingFigureBeforeItHasStopped) {
  BottlePlan plan = exact();
  plan.expected_sg = 1.009;
  plan.carbonation = 9;
  ASSERT_EQ(bottle(usual(), plan).priming, Priming::figure);
  plan.at_rest = false;
  const BottleResult b = bottle(usual(), plan);
  EXPECT_EQ(b.priming, Priming::not_yet);
  for (const char* key : {"priming_sugar_g_l", "gauge_pressure_primed_bar"})
    EXPECT_THROW((void)b.result.at(key), Error) << key;
  plan.carbonation = 100;
  EXPECT_THROW((void)bottle(usual(), plan), Error);
}

TEST(Bottle, NoPrimingFigureWhereTheSugarThatIsLeftCanDoIt) {
  BottlePlan plan = exact();
  EXPECT_EQ(bottle(usual(), plan).priming, Priming::none);
  plan.carbonation = 5;  // all extract makes four times as much
  EXPECT_EQ(bottle(usual(), plan).priming, Priming::enough);
  EXPECT_THROW((void)bottle(usual(), plan).result.at("priming_sugar_g_l"), Error);
  plan.expected_sg = 1.009;
  plan.carbonation = 9;
  EXPECT_EQ(bottle(usual(), plan).priming, Priming::figure);
}

// Each of the two reasons alone.
TEST(Bottle, NoPrimingFigureForEitherReason) {
  BottlePlan plan = exact();
  plan.expected_sg = 1.0065;
  const BottleResult b = bottle(usual(), plan);
  // A little more than is likely to come of it, but less than may come of the sugar alone.
  plan.carbonation = value(b, "co2_expected_g_l") + 0.1;
  ASSERT_GT(b.result.at("co2_expected_g_l").value.expanded(), 1);
  EXPECT_EQ(bottle(usual(), plan).priming, Priming::enough);
  // A stem read to 0.0001 knows that no sugar goes down to where it is; half of what may be
  // dissolved is more than this.
  const auto fine = Calibrated{{.name = "stem-2", .lo = 0.980, .hi = 1.180, .division = 1e-4}, {}};
  instruments::HydrometerReading first, now;
  first.indication = 1.048;
  now.indication = 1.010;
  const AlcoholResult sharp = alcohol(fine, now, fine, first);
  plan.expected_sg = sharp.result.at("sg_20_20_present").value.estimate;
  const BottleResult of_sharp = bottle(sharp, plan);
  plan.carbonation = 0.9 * value(of_sharp, "co2_dissolved_g_l");
  ASSERT_LT(0.49 * of_sharp.result.at("sugar_expected_g_l").value.expanded(), *plan.carbonation);
  EXPECT_EQ(bottle(sharp, plan).priming, Priming::enough);
}

// What is dissolved depends on the drink when it is closed, not on where it is kept.
TEST(Bottle, DissolvesByTheTemperatureAtWhichItIsClosed) {
  const double at_20 = value(bottle(usual(), exact(30)), "co2_dissolved_g_l");
  EXPECT_DOUBLE_EQ(value(bottle(usual(), exact(5)), "co2_dissolved_g_l"), at_20);
  BottlePlan cold = exact(30);
  cold.closing.indication_c = 10;
  EXPECT_NEAR(value(bottle(usual(), cold), "co2_dissolved_g_l") / at_20,
              physics::solubility_in_water(celsius_point(10)) /
                  physics::solubility_in_water(celsius_point(20)),
              1e-9);
}

TEST(Bottle, RefusesWhatCannotBe) {
  const auto refuses = [](auto change, Errc code, const AlcoholResult& of = usual()) {
    BottlePlan plan;
    change(plan);
    try {
      (void)bottle(of, plan);
    } catch (const Error& e) {
      return e.code == code;
    }
    return false;
  };
  for (const double bad : {nan, -1.0, 41.0})
    EXPECT_TRUE(refuses([&](BottlePlan& p) { p.storage_c = bad; }, Errc::domain)) << bad;
  for (const double bad : {nan, 0.0, -0.1, 0.51})
    EXPECT_TRUE(refuses([&](BottlePlan& p) { p.headspace = bad; }, Errc::domain)) << bad;
  for (const double bad : {nan, 0.0, -1.0}) {
    EXPECT_TRUE(refuses([&](BottlePlan& p) { p.carbonation = bad; }, Errc::domain)) << bad;
    EXPECT_TRUE(refuses([&](BottlePlan& p) { p.volume_l = bad; }, Errc::domain)) << bad;
  }
  EXPECT_TRUE(refuses([](BottlePlan& p) { p.expected_sg = nan; }, Errc::domain));
  EXPECT_TRUE(refuses([](BottlePlan& p) { p.expected_sg = 1.020; }, Errc::inconsistent));
  EXPECT_TRUE(refuses([](BottlePlan& p) { p.expected_sg = 0.970; }, Errc::inconsistent));
  EXPECT_TRUE(refuses([](BottlePlan&) {}, Errc::inconsistent, drink(1.010, 1.048)));
  EXPECT_TRUE(refuses([](BottlePlan& p) { p.closing.indication_c = nan; }, Errc::domain));
}

// An original gravity for which all alcohol would be more than the formulas reach.
TEST(Bottle, TakesAStrongMust) { EXPECT_GT(pressure(exact(), drink(1.160, 1.060)), 10); }

TEST(Bottle, ARatingIsComparedWithTheUpperEnd) {
  const Quantity p{"gauge_pressure_all_bar", "pressure", "bar", {5.0, 0.5}};  // up to 5.98
  EXPECT_EQ(against_rating(range_of(p), pascals(6e5)), RatingVerdict::below);
  EXPECT_EQ(against_rating(range_of(p), pascals(5.9e5)), RatingVerdict::above);
  EXPECT_EQ(against_rating(range_of(p), pascals(4e5)), RatingVerdict::above);
  // Above 10 bar nothing is called below.
  const Quantity much{"gauge_pressure_all_bar", "pressure", "bar", {9.5, 0.5}};
  EXPECT_EQ(against_rating(range_of(much), pascals(16e5)), RatingVerdict::cannot_tell);
  EXPECT_EQ(against_rating(range_of(much), pascals(10e5)), RatingVerdict::above);
  for (const double bad : {nan, 0.0, -6e5})
    EXPECT_THROW((void)against_rating(range_of(p), pascals(bad)), Error);
  // What is not known is not below.
  const Quantity unknown{"gauge_pressure_all_bar", "pressure", "bar", {nan, 0.5}};
  EXPECT_EQ(against_rating(range_of(unknown), pascals(6e5)), RatingVerdict::above);
}

// A reading below the expected end takes no gas back.
TEST(Bottle, NoCaseIsBelowWhereNothingMoreFerments) {
  const Quantity now{"co2_now_g_l", "", "g/L", {1.0, 0.5}};
  const Quantity less{"co2_expected_g_l", "", "g/L", {0.2, 0.5}};
  const Quantity more{"co2_expected_g_l", "", "g/L", {4.0, 0.5}};
  EXPECT_EQ(range_of(less, now).lo, range_of(now).lo);
  EXPECT_EQ(range_of(less, now).hi, range_of(now).hi);
  EXPECT_EQ(range_of(more, now).lo, range_of(more).lo);
  EXPECT_EQ(range_of(more, now).hi, range_of(more).hi);
}

}  // namespace
}  // namespace areo::measurement
