// SPDX-License-Identifier: GPL-3.0-or-later
// Arithmetic that knows what two values have in common.
#include "areo/front/uncertain.hpp"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <sstream>

#include "areo/analysis/budget.hpp"
#include "areo/analysis/difference.hpp"
#include "areo/core/error.hpp"
#include "areo/front/drink.hpp"
#include "areo/front/fmt.hpp"
#include "areo/front/jobs.hpp"
#include "areo/front/literals.hpp"
#include "areo/measurement/original.hpp"
#include "inner.hpp"
#include "same.hpp"

namespace areo {
namespace {

double u(const auto& v) { return v.evidence().value.u; }

Drink drink(const ReadingOf<Gravity>& original, Gravity present) {
  return alcohol({.original = original, .present = front_stem().read(present, 20_degC)});
}

TEST(Uncertain, TheDifferenceOfTwoDrinksOfOneWortIsThatOfTheRoom) {
  const auto wort = front_stem().read(1.050_sg, 20_degC);
  const auto front = drink(wort, 1.011_sg).strength - drink(wort, 1.020_sg).strength;
  const auto inner = [](double present, const char* of) {
    return measurement::alcohol(inner_reading(present, 20),
                                {.readings = {inner_reading(1.050, 20)}}, Culture::yeast, of)
        .result;
  };
  expect_same(front, analysis::difference(inner(1.020, "then"), inner(1.011, "now"),
                                          "alcohol_percent_vol"));
  EXPECT_LT(u(front), 0.8 * u(drink(wort, 1.011_sg).strength));
}

// Two readings of two worts: equal numbers are no reason to take them for one.
TEST(Uncertain, AnotherReadingIsAnotherEvent) {
  const auto wort = front_stem().read(1.050_sg, 20_degC);
  const auto another = front_stem().read(1.050_sg, 20_degC);
  const auto now = front_stem().read(1.011_sg, 20_degC);
  const auto strength = [&](const ReadingOf<Gravity>& original, const ReadingOf<Gravity>& present) {
    return alcohol({.original = original, .present = present}).strength;
  };
  EXPECT_EQ(u(strength(wort, now) - strength(wort, now)), 0);
  EXPECT_GT(u(strength(wort, now) - strength(another, now)), 0);
  const auto two_ferments =
      strength(wort, now) - strength(another, front_stem().read(1.011_sg, 20_degC));
  EXPECT_GT(u(two_ferments), u(strength(wort, now) - strength(another, now)));
  // The method, too, is one per ferment; what the stem is off by cancels all the same.
  EXPECT_LT(u(two_ferments), std::sqrt(2.0) * u(strength(wort, now)));
}

TEST(Uncertain, ACopyOfAStemIsTheSameAndOneMadeAlikeIsNot) {
  const Hydrometer<Gravity> stem;
  const Hydrometer<Gravity> copy = stem;
  const Hydrometer<Gravity> another;
  const auto change = [](const Hydrometer<Gravity>& a, const Hydrometer<Gravity>& b) {
    return u(correct(a.read(1.050_sg, 20_degC)).reading -
             correct(b.read(1.011_sg, 20_degC)).reading);
  };
  EXPECT_EQ(change(stem, copy), change(stem, stem));
  EXPECT_GT(change(stem, another), 1.2 * change(stem, stem));
  const auto strength = [](const Hydrometer<Gravity>& a, const Hydrometer<Gravity>& b) {
    return u(alcohol({.original = a.read(1.050_sg, 20_degC), .present = b.read(1.011_sg, 20_degC)})
                 .strength);
  };
  EXPECT_EQ(strength(stem, copy), strength(stem, stem));
  EXPECT_GT(strength(stem, another), 1.2 * strength(stem, stem));
}

// One sample, read once, is behind both the corrected gravity and the drink.
TEST(Uncertain, OneReadingIsTheSameInDifferentJobs) {
  const auto now = front_stem().read(1.011_sg, 20_degC);
  const auto wort = front_stem().read(1.050_sg, 20_degC);
  const auto first = alcohol({.original = wort, .present = now});
  const auto corrected = correct(now).reading;
  EXPECT_GT(correlation(first.present_gravity, corrected), 0.95);
  EXPECT_LT(
      correlation(first.present_gravity, correct(front_stem().read(1.011_sg, 20_degC)).reading),
      correlation(first.present_gravity, corrected) - 0.05);
  EXPECT_LT(correlation(first.strength, corrected), 0);  // a higher gravity now is less alcohol
}

TEST(Uncertain, FollowsTheRulesOfItsType) {
  const auto a = within(5_percent_vol, {0.3});
  const auto b = within(4_percent_vol, {0.4});
  const double ua = 0.3 / std::sqrt(3.0), ub = 0.4 / std::sqrt(3.0);
  const Uncertain<DifferenceOf<StrengthByVolume>> d = a - b;
  EXPECT_DOUBLE_EQ(d.value().value, 1);
  EXPECT_DOUBLE_EQ(u(d), std::hypot(ua, ub));
  EXPECT_DOUBLE_EQ(u(b + d), ua);  // b + (a - b) is a again, with its ± alone
  EXPECT_DOUBLE_EQ((b + d).value().value(), 5);
  EXPECT_DOUBLE_EQ(u(-2.0 * d), 2 * u(d));
  EXPECT_EQ(u(a - a), 0);
  EXPECT_DOUBLE_EQ(u(a - 0.5_percent_vol), ua);  // an exact one adds nothing
  EXPECT_DOUBLE_EQ(correlation(a, a), 1);
  EXPECT_EQ(correlation(a, b), 0);
  EXPECT_EQ(correlation(a, Uncertain{0.5_percent_vol}), 0);
  EXPECT_NEAR(correlation(d, a), ua / std::hypot(ua, ub), 1e-15);
}

TEST(Uncertain, SumsOfAmounts) {
  const auto a = within(250_g, 5_g);
  const auto total = a + within(100_g, 1_g) + a;
  EXPECT_DOUBLE_EQ(number(total.value()), 600);
  EXPECT_NEAR(number(total.standard_uncertainty()), std::hypot(10, 1) / std::sqrt(3.0), 1e-12);
  EXPECT_EQ(total.text(), "600 ± 11 g");
}

TEST(Uncertain, AModelOfOnesOwn) {
  const auto s = with_standard_uncertainty(5_percent_mass, {0.1});
  const auto m = with_standard_uncertainty(250_g, 5_g);
  const auto ethanol =
      evaluate([](StrengthByMass w, Mass drink) { return w.value() / 100 * drink; }, s, m);
  static_assert(std::is_same_v<decltype(ethanol), const Uncertain<Mass>>);
  EXPECT_NEAR(number(ethanol.value()), 12.5, 1e-12);
  EXPECT_NEAR(number(ethanol.standard_uncertainty()), std::hypot(0.25, 0.25), 1e-12);
  // The same strength twice counts once.
  const auto none =
      evaluate([](StrengthByMass x, StrengthByMass y) { return x.value() - y.value(); }, s, s);
  EXPECT_NEAR(u(none), 0, 1e-15);
  // [gum] 5.1.2: of a ratio the relative uncertainties add in squares.
  const auto ratio = evaluate([](Mass x, Mass y) { return number(x) / number(y); }, m,
                              with_standard_uncertainty(100_g, 1_g));
  EXPECT_NEAR(u(ratio) / 2.5, std::hypot(0.02, 0.01), 1e-5);  // the second term is curved
}

TEST(Uncertain, AModelOfOnesOwnKnowsWhatDrinksHaveInCommon) {
  const auto wort = front_stem().read(1.050_sg, 20_degC);
  const auto a = drink(wort, 1.011_sg).strength;
  const auto b = drink(wort, 1.020_sg).strength;
  const auto by_model =
      evaluate([](StrengthByVolume x, StrengthByVolume y) { return x - y; }, a, b);
  EXPECT_NEAR(u(by_model), u(a - b), 1e-12);
}

TEST(Uncertain, AModelThatFailsIsAnError) {
  const auto m = within(250_g, 5_g);
  EXPECT_THROW((void)evaluate([](Mass) { return std::nan(""); }, m), Error);
  EXPECT_THROW((void)evaluate([](Mass) -> double { throw Error{Errc::domain, "no"}; }, m), Error);
}

TEST(Uncertain, RefusesWhatIsNoNumber) {
  EXPECT_THROW(Uncertain{gravity(std::nan(""))}, Error);
  EXPECT_THROW((void)within(gravity(std::nan("")), {0.001}), Error);
  EXPECT_THROW((void)within(1.048_sg, {-0.001}), Error);
  EXPECT_THROW((void)within(1.048_sg, {std::nan("")}), Error);
}

TEST(Uncertain, BudgetIsThatOfTheRoom) {
  const auto wort = front_stem().read(1.050_sg, 21_degC);
  const auto front = drink(wort, 1.011_sg).strength.budget();
  const auto before = inner_reading(1.050, 21);
  const auto now = inner_reading(1.011, 20);
  const auto inner = analysis::budget(
      measurement::alcohol(now.instrument, now.reading, before.instrument, before.reading).result,
      "alcohol_percent_vol");
  ASSERT_EQ(front.size(), inner.size());
  double variance = 0;
  for (std::size_t i = 0; i < front.size(); ++i) {
    EXPECT_EQ(front[i].input.name, inner[i].input.name);
    EXPECT_EQ(front[i].share, inner[i].share);
    EXPECT_EQ(front[i].fraction, inner[i].fraction);
    variance += front[i].share * front[i].share;
  }
  EXPECT_DOUBLE_EQ(std::sqrt(variance), u(drink(wort, 1.011_sg).strength));
  EXPECT_THROW((void)Uncertain{5_percent_vol}.budget(), Error);  // exact: nothing to take apart
}

TEST(Uncertain, BudgetOfADifferenceTellsReadingsApart) {
  const auto wort = front_stem().read(1.050_sg, 21_degC);
  const auto strength = [&](Gravity present, const char* name) {
    return alcohol({.original = wort, .present = front_stem().read(present, 20_degC), .name = name})
        .strength;
  };
  const auto budget = (strength(1.011_sg, "Monday") - strength(1.020_sg, "Friday")).budget();
  const auto has = [&](const char* name) {
    return std::count_if(budget.begin(), budget.end(),
                         [&](const Contribution& c) { return c.input.name == name; });
  };
  EXPECT_EQ(has("reading of Monday"), 1);
  EXPECT_EQ(has("reading of Friday"), 1);
}

TEST(Uncertain, PrintsItself) {
  const auto v = within(5_percent_vol, {0.3});
  std::ostringstream out;
  out << v << '|' << within(1.048_sg, {0.001}) << '|' << Uncertain{27_degC};
  EXPECT_EQ(out.str(), "5.00 ± 0.34 % vol|1.0480 ± 0.0011|27 °C");
  EXPECT_EQ(fmt::format("{}|{:>20}", v, v), "5.00 ± 0.34 % vol|   5.00 ± 0.34 % vol");
  EXPECT_DOUBLE_EQ(v.expanded_uncertainty().value, 1.959963984540054 * 0.3 / std::sqrt(3.0));
}

}  // namespace
}  // namespace areo
