#include "areo/uncertainty/decision.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <vector>

#include "areo/core/error.hpp"
#include "areo/uncertainty/monte_carlo.hpp"

namespace areo::uncertainty {
namespace {

constexpr double nan = std::numeric_limits<double>::quiet_NaN();
constexpr double inf = std::numeric_limits<double>::infinity();

// An estimate below the limit is not enough: Φ(1.25) = 0.894, from a table of the normal.
TEST(Decide, TheEstimateAloneDoesNotDecide) {
  const Decision d = decide({0.45, 0.04}, 0.50);
  EXPECT_NEAR(d.probability_below, 0.894, 0.0005);
  EXPECT_EQ(d.side, Side::cannot_tell);
  EXPECT_EQ(decide({0.45, 0.04}, 0.50, 0.89).side, Side::below);
}

// 1.645 u at 95 %: the verdict turns at the guard band, on both sides.
TEST(Decide, AtTheGuardBand) {
  const Value unit{10, 1};
  EXPECT_NEAR(guard_band(unit), 1.645, 0.0005);
  EXPECT_EQ(decide({8.35, 1}, 10).side, Side::below);
  EXPECT_EQ(decide({8.36, 1}, 10).side, Side::cannot_tell);
  EXPECT_EQ(decide({10, 1}, 10).side, Side::cannot_tell);
  EXPECT_EQ(decide({11.64, 1}, 10).side, Side::cannot_tell);
  EXPECT_EQ(decide({11.65, 1}, 10).side, Side::above);
  const Decision d = decide(unit, 12);
  EXPECT_NEAR(d.lower, 8.355, 0.0005);
  EXPECT_NEAR(d.upper, 11.645, 0.0005);
}

// [ilac-g8]: risk Φ(-2 r) of an estimate at limit - r U with U = 2 u.
TEST(Decide, RiskAtTheEdgeOfGuardBands) {
  const auto risk = [](double r) {
    return 1 - probability_below(Value{10 - 2 * r * 0.3, 0.3}, 10);
  };
  EXPECT_NEAR(risk(0), 0.50, 1e-12);
  EXPECT_NEAR(risk(0.5), 0.159, 0.0005);
  EXPECT_NEAR(risk(0.83), 0.0485, 0.00005);
  EXPECT_NEAR(risk(1), 0.02275, 0.000005);
  EXPECT_NEAR(risk(1.5), 0.00135, 0.000005);
  EXPECT_NEAR(guard_band({0, 0.3}, 0.97725), 2 * 0.3, 0.0001);
}

// One-sided 95 % points of Student's t, [gum] table G.2 at 90 %: 2.13 for 4 degrees of freedom; 4.9
// count as 4.
TEST(Decide, FewDegreesOfFreedomWidenTheBand) {
  EXPECT_NEAR(guard_band({0, 1, 4}), 2.13, 0.005);
  EXPECT_EQ(guard_band({0, 1, 4.9}), guard_band({0, 1, 4}));
  EXPECT_EQ(decide({8.0, 1}, 10).side, Side::below);
  EXPECT_EQ(decide({8.0, 1, 4}, 10).side, Side::cannot_tell);
  EXPECT_NEAR(probability_below(Value{10 - 2.132, 1, 4}, 10), 0.95, 0.00005);
}

std::vector<double> steps(int n) {
  std::vector<double> v;
  for (int i = 1; i <= n; ++i) v.push_back(static_cast<double>(i) / n);
  return v;
}

// 10 000 values at 0.0001 .. 1: the fraction below x is x. Two standard deviations of a count at
// 0.95 are 0.0044.
TEST(Decide, FromASample) {
  const auto v = steps(10'000);
  EXPECT_DOUBLE_EQ(probability_below(v, 0.25), 0.25);
  EXPECT_EQ(probability_below(v, 2), 1);
  EXPECT_EQ(probability_below(v, 0), 0);
  EXPECT_EQ(decide(v, 0.9600).side, Side::below);
  EXPECT_EQ(decide(v, 0.9530).side, Side::cannot_tell);
  EXPECT_EQ(decide(v, 0.0470).side, Side::cannot_tell);
  EXPECT_EQ(decide(v, 0.0400).side, Side::above);
  EXPECT_EQ(decide(v, 2).side, Side::below);
  EXPECT_EQ(decide(v, 0).side, Side::above);
  // 500 values lie below 0.0501, and 500 above 0.95.
  EXPECT_DOUBLE_EQ(decide(v, 2).lower, 0.0501);
  EXPECT_DOUBLE_EQ(decide(v, 2).upper, 0.95);
}

// One rectangular input of ± 1: the law of propagation leaves a tail that is not there.
TEST(Decide, SampledTailsCount) {
  Inputs in;
  const InputRef a = in.add(rectangular("a", "", 0, 1, ""));
  const Model model = [&](const Point& x) { return std::vector{x[a]}; };
  const auto sampled = monte_carlo(in, model, {.digits = 1, .keep = {0}}).outputs[0];
  EXPECT_EQ(decide(propagate(in, model).values[0], 0.92).side, Side::cannot_tell);
  EXPECT_EQ(decide(sampled.sample, 0.92).side, Side::below);
}

TEST(Decide, RefusesWhatItCannotJudge) {
  const Value v{1, 1};
  EXPECT_THROW((void)decide({1, 0}, 2), Error);
  EXPECT_THROW((void)decide({1, -1}, 2), Error);
  EXPECT_THROW((void)decide({nan, 1}, 2), Error);
  EXPECT_THROW((void)decide({1, nan}, 2), Error);
  EXPECT_THROW((void)decide({1, 1, nan}, 2), Error);
  EXPECT_THROW((void)decide(v, nan), Error);
  EXPECT_THROW((void)decide(v, inf), Error);
  EXPECT_THROW((void)decide(v, 2, 0.5), Error);
  EXPECT_THROW((void)decide(v, 2, 1), Error);
  EXPECT_THROW((void)decide(v, 2, nan), Error);
  EXPECT_THROW((void)guard_band(v, 0.4), Error);
  EXPECT_NO_THROW((void)decide(steps(2000), 0.5));
  EXPECT_THROW((void)decide(steps(1999), 0.5), Error);
  EXPECT_THROW((void)probability_below(std::vector{2.0, 1.0}, 0), Error);
  EXPECT_THROW((void)probability_below(std::vector{1.0, nan}, 0), Error);
  EXPECT_THROW((void)probability_below(std::vector<double>{}, 0), Error);
  EXPECT_THROW((void)probability_below(std::vector{1.0}, nan), Error);
}

}  // namespace
}  // namespace areo::uncertainty
