// SPDX-License-Identifier: GPL-3.0-or-later
// Where an uncertainty comes from, and what measures make of it: every one against the measurement
// made again with the changed inputs.
#include "areo/analysis/budget.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

#include "analysis/what_if.hpp"
#include "areo/analysis/improvements.hpp"
#include "areo/calibration/recommended_check.hpp"
#include "areo/core/error.hpp"
#include "areo/measurement/convert.hpp"
#include "areo/measurement/refract.hpp"

namespace areo::analysis {
namespace {

using instruments::Hydrometer;
using instruments::HydrometerReading;
using uncertainty::Origin;

constexpr const char* strength = "alcohol_percent_vol";
// Shares are differences over ± u; a model that is not quite straight has slightly other ones over
// a shorter step.
constexpr double curvature = 0.002;

HydrometerReading reading(double indication, double t_c) {
  HydrometerReading r;
  r.indication = indication;
  r.temperature.indication_c = t_c;
  return r;
}

// All that a measure could change about a strength from two gravities.
struct Batch {
  measurement::Calibrated stem;
  HydrometerReading original = reading(1.048, 26), present = reading(1.009, 19);

  Batch() {
    Hydrometer h;
    h.name = "stem";
    stem = measurement::Calibrated::never_checked(h);
  }
  [[nodiscard]] measurement::Result result() const {
    return measurement::alcohol(stem, present, stem, original).result;
  }
  void halve_division() {
    stem.hydrometer.division /= 2;
    stem.correction = measurement::Calibrated::never_checked(stem.hydrometer).correction;
  }
  void check() { stem.correction = calibration::recommended_check(stem.hydrometer)->correction; }
};

// The same for one sample with two readings.
struct Pair {
  measurement::CalibratedRefractometer prism;
  measurement::Calibrated stem;
  instruments::RefractometerReading refraction;
  HydrometerReading gravity = reading(1.012, 20);
  measurement::ExtractKind kind{"mixed", physics::unknown_extract_optics, "not stated"};

  Pair() {
    instruments::Refractometer r;
    r.name = "prism";
    prism = measurement::CalibratedRefractometer::never_checked(r);
    Hydrometer h;
    h.name = "stem";
    stem = measurement::Calibrated::never_checked(h);
    refraction.indication = 7.8;
    refraction.temperature.indication_c = 22;
  }
  [[nodiscard]] measurement::Result result() const {
    return measurement::refract_with_hydrometer({prism, refraction}, {stem, gravity}, kind).result;
  }
};

double u_of(const measurement::Result& r, const char* key = strength) { return r.at(key).value.u; }

// The measure of an action; of several the one about instrument n.
Measure measure(const measurement::Result& r, Action action, std::size_t n = 0,
                const char* key = strength) {
  for (const Measure& m : measures(r, key))
    if (m.action == action && n-- == 0) return m;
  ADD_FAILURE() << "no such measure";
  return {};
}

void expect_same(double u, double made_again) {
  EXPECT_NEAR(u, made_again, curvature * made_again);
}

// --- the budget ---

TEST(Budget, AddsUpAndIsInOrder) {
  for (const measurement::Result& r : {Batch{}.result(), Pair{}.result()}) {
    for (const measurement::Quantity& q : r.quantities) {
      double fractions = 0;
      double squares = 0;
      const auto all = budget(r, q.key);
      for (const Contribution& c : all) {
        fractions += c.fraction;
        squares += c.share * c.share;
        EXPECT_GT(c.share, 0);
        EXPECT_NEAR(c.fraction, c.share * c.share / (q.value.u * q.value.u), 1e-12);
      }
      EXPECT_NEAR(fractions, 1, 1e-12) << q.key;
      EXPECT_NEAR(squares, q.value.u * q.value.u, 1e-12 * squares) << q.key;
      EXPECT_TRUE(std::is_sorted(all.begin(), all.end(),
                                 [](const auto& a, const auto& b) { return a.share > b.share; }));
    }
  }
}

TEST(Budget, KnowsWhereInputsComeFrom) {
  const auto all = budget(Batch{}.result(), strength);
  EXPECT_EQ(all.front().input.origin, Origin::method);
  for (const Contribution& c : all) EXPECT_NE(c.input.origin, Origin::other) << c.input.name;
  for (const Contribution& c : budget(Pair{}.result(), strength))
    EXPECT_NE(c.input.origin, Origin::other) << c.input.name;
}

// By hand: 3 and 4 with r = 0.5 make a variance of 9 + 16 + 12 = 37; 15 of it are the first's.
TEST(Budget, SharesWhatACorrelationAdds) {
  uncertainty::Inputs inputs;
  const auto a = inputs.add(uncertainty::normal("a", "", 0, 3, ""));
  const auto b = inputs.add(uncertainty::normal("b", "", 0, 4, ""));
  inputs.correlate(a, b, 0.5);
  const measurement::Result r = measurement::evaluate(
      inputs, [=](const uncertainty::Point& x) { return std::vector{x[a] + x[b]}; },
      {{"sum", "sum", ""}});
  const auto all = budget(r, "sum");
  ASSERT_EQ(all.size(), 2U);
  EXPECT_NEAR(all[0].fraction, 22.0 / 37, 1e-12);
  EXPECT_NEAR(all[1].fraction, 15.0 / 37, 1e-12);
}

TEST(Budget, RefusesWhatHasNone) {
  EXPECT_THROW((void)budget(Batch{}.result(), "no_such_key"), Error);
  const measurement::Result exact =
      measurement::convert(physics::sg_20_20, 1.048, 0, std::vector{physics::sg_20_20});
  EXPECT_THROW((void)budget(exact, exact.quantities[0].key), Error);
  EXPECT_THROW((void)measures(exact, exact.quantities[0].key), Error);
}

// --- each measure, made again ---

// A triangular reading within a, noted in steps of a: a / √12 after averaging, as within a / √2.
TEST(Measures, RepeatedReadings) {
  Batch again;
  again.original.half_width = again.present.half_width = 0.001 / std::sqrt(2.0);
  expect_same(measure(Batch{}.result(), Action::repeat).after.u, u_of(again.result()));
}

TEST(Measures, RepeatedReadingsWithoutStepsGainTheirRoot) {
  uncertainty::Inputs inputs;
  const auto a = inputs.add(from(Origin::reading, uncertainty::normal("a", "", 0, 3, "")));
  const measurement::Result r = measurement::evaluate(
      inputs, [=](const uncertainty::Point& x) { return std::vector{2 * x[a]}; }, {{"a", "a", ""}});
  EXPECT_NEAR(measure(r, Action::repeat, 0, "a").after.u, 6 / std::sqrt(3.0), 1e-12);
}

TEST(Measures, Temperature) {
  Batch before;
  before.original.temperature.half_width_c = before.present.temperature.half_width_c = 3;
  Batch again;
  again.original.temperature.half_width_c = again.present.temperature.half_width_c = 0.2;
  expect_same(measure(before.result(), Action::temperature).after.u, u_of(again.result()));
  // Better ones stay.
  again.original.temperature.half_width_c = again.present.temperature.half_width_c = 0.1;
  EXPECT_DOUBLE_EQ(measure(again.result(), Action::temperature).after.u, u_of(again.result()));
}

TEST(Measures, CheckOfTheHydrometer) {
  Batch again;
  again.check();
  const measurement::Result before = Batch{}.result();
  for (const char* key : {strength, "sg_20_20_original", "sg_20_20_present"}) {
    expect_same(measure(before, Action::check, 0, key).after.u, u_of(again.result(), key));
    EXPECT_LT(u_of(again.result(), key), u_of(before, key));
  }
}

TEST(Measures, CheckOutsideItsRange) {
  Batch before;
  before.present = reading(0.994, 20);
  Batch again = before;
  again.check();
  expect_same(measure(before.result(), Action::check, 0, "sg_20_20_present").after.u,
              u_of(again.result(), "sg_20_20_present"));
}

TEST(Measures, ABetterCorrectionStays) {
  Batch b;
  b.check();
  b.stem.correction.u_offset /= 10;
  b.stem.correction.u_slope /= 10;
  EXPECT_DOUBLE_EQ(measure(b.result(), Action::check).after.u, u_of(b.result()));
}

TEST(Measures, FinerScale) {
  Batch again;
  again.halve_division();
  expect_same(measure(Batch{}.result(), Action::finer_scale).after.u, u_of(again.result()));
  // What a check found does not shrink with the division.
  Batch before;
  before.check();
  Batch finer = before;
  finer.stem.hydrometer.division /= 2;
  expect_same(measure(before.result(), Action::finer_scale).after.u, u_of(finer.result()));
}

TEST(Measures, EachInstrumentOfAPairForItself) {
  const measurement::Result before = Pair{}.result();
  Pair prism;
  prism.prism.correction = calibration::recommended_check(prism.prism.refractometer)->correction;
  expect_same(measure(before, Action::check, 0).after.u, u_of(prism.result()));
  Pair stem;
  stem.stem.correction = calibration::recommended_check(stem.stem.hydrometer)->correction;
  expect_same(measure(before, Action::check, 1).after.u, u_of(stem.result()));
  Pair fine;
  fine.stem.hydrometer.division /= 2;
  fine.stem.correction = measurement::Calibrated::never_checked(fine.stem.hydrometer).correction;
  expect_same(measure(before, Action::finer_scale, 1).after.u, u_of(fine.result()));
}

TEST(Measures, NamedExtract) {
  Pair again;
  again.kind.optics.uncertainty = physics::malt_extract_optics.uncertainty;
  expect_same(measure(Pair{}.result(), Action::extract).after.u, u_of(again.result()));
}

TEST(Measures, OneMoreDigit) {
  const std::vector to{physics::plato_20};
  const measurement::Result before = measurement::convert(physics::sg_20_20, 1.048, 0.0005, to);
  const measurement::Result again = measurement::convert(physics::sg_20_20, 1.048, 0.00005, to);
  expect_same(measure(before, Action::digit, 0, "plato").after.u, u_of(again, "plato"));
  EXPECT_EQ(measures(before, "plato").size(), 1U);
}

TEST(Measures, TogetherAsMadeTogether) {
  const measurement::Result before = Batch{}.result();
  const Forecast outlook{before, strength};
  Batch again;
  again.halve_division();
  again.check();
  again.original.half_width = again.present.half_width = 0.0005 / std::sqrt(2.0);
  again.original.temperature.half_width_c = again.present.temperature.half_width_c = 0.2;
  expect_same(outlook.after(outlook.steps()).u, u_of(again.result()));
}

TEST(Measures, NothingHelpsAScaleThatNobodyRead) {
  Batch weighed;
  weighed.original.origin = Origin::mass;
  weighed.present.origin = Origin::mass;
  for (const Measure& m : measures(weighed.result(), strength))
    EXPECT_EQ(m.action, Action::temperature);
}

// --- the cheapest way to a target ---

// reading + temperature + method, each a standard uncertainty.
measurement::Result three(double a, double b, double c) {
  uncertainty::Inputs inputs;
  const auto x1 = inputs.add(from(Origin::reading, uncertainty::normal("reading", "", 0, a, "")));
  const auto x2 = inputs.add(from(Origin::temperature, uncertainty::normal("t", "", 0, b, "")));
  const auto x3 = inputs.add(from(Origin::method, uncertainty::normal("method", "", 0, c, "")));
  return measurement::evaluate(
      inputs, [=](const uncertainty::Point& x) { return std::vector{x[x1] + x[x2] + x[x3]}; },
      {{"y", "y", ""}});
}

struct Want {
  double u;  ///< target as a standard uncertainty
  bool reached;
  std::vector<Action> actions;
  double effort;
};

void expect_plan(const measurement::Result& r, const Want& want) {
  const double k = r.at("y").value.expanded() / r.at("y").value.u;
  const Plan plan = cheapest(r, "y", k * want.u);
  EXPECT_EQ(plan.reached, want.reached) << want.u;
  EXPECT_EQ(plan.effort, want.effort) << want.u;
  std::vector<Action> actions;
  for (const Measure& m : plan.steps) actions.push_back(m.action);
  EXPECT_EQ(actions, want.actions) << want.u;
}

// u² by hand, temperature at its best 0.2² / 3 = 0.0133:
//   3, 2, 1: 14 as it is; 8 repeated; 10.0133 with the temperature; 4.0133 with both
//   1, 4, 1: 18 as it is; 17.33 repeated; 2.0133 with the temperature; 1.3467 with both
TEST(Cheapest, AgainstAllCombinationsByHand) {
  const measurement::Result reading_first = three(3, 2, 1);
  expect_plan(reading_first, {std::sqrt(14.01), true, {}, 0});
  expect_plan(reading_first, {std::sqrt(10.1), true, {Action::repeat}, 1});
  expect_plan(reading_first, {std::sqrt(7.99), true, {Action::repeat, Action::temperature}, 3});
  expect_plan(reading_first, {std::sqrt(4.01), false, {}, 0});
  const measurement::Result temperature_first = three(1, 4, 1);
  expect_plan(temperature_first, {std::sqrt(17.4), true, {Action::repeat}, 1});
  expect_plan(temperature_first, {std::sqrt(17.3), true, {Action::temperature}, 2});
  expect_plan(temperature_first, {std::sqrt(2.0), true, {Action::repeat, Action::temperature}, 3});
}

TEST(Cheapest, NamesTheFloor) {
  const BestAchievable by_reading = best_achievable(three(3, 2, 1), "y");
  EXPECT_EQ(by_reading.limit, "reading");
  EXPECT_FALSE(by_reading.needs_laboratory);
  EXPECT_NEAR(by_reading.after.u, std::sqrt(4 + 0.04 / 3), 1e-9);
  const BestAchievable by_method = best_achievable(three(1, 2, 1), "y");
  EXPECT_EQ(by_method.limit, "method");
  EXPECT_TRUE(by_method.needs_laboratory);
  EXPECT_NEAR(cheapest(three(1, 2, 1), "y", 1).after.u, by_method.after.u, 1e-12);
}

TEST(Cheapest, RefusesATargetThatIsNone) {
  const measurement::Result r = three(1, 1, 1);
  for (const double target : {0.0, -1.0, std::numeric_limits<double>::quiet_NaN(),
                              std::numeric_limits<double>::infinity()})
    EXPECT_THROW((void)cheapest(r, "y", target), Error);
  EXPECT_THROW((void)cheapest(r, "no_such_key", 1), Error);
  EXPECT_THROW((void)best_achievable(r, "no_such_key"), Error);
}

}  // namespace
}  // namespace areo::analysis
