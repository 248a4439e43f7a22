// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/uncertainty/monte_carlo.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>
#include <stdexcept>
#include <string>
#include <vector>

#include "areo/core/error.hpp"

namespace areo::uncertainty {
namespace {

constexpr double nan = std::numeric_limits<double>::quiet_NaN();

std::vector<double> count_to(int n) {
  std::vector<double> values(static_cast<std::size_t>(n));
  std::iota(values.begin(), values.end(), 1.0);
  return values;
}

// 100 values, p = 0.9: q = 90, ranks 5 and 95.
TEST(Intervals, ByHand) {
  const Interval i = symmetric_interval(count_to(100), 0.9);
  EXPECT_EQ(i.lo, 5);
  EXPECT_EQ(i.hi, 95);
  // Odd: 101 values, q = floor(90.9 + 0.5) = 91, (101 - 91) / 2 = 5.
  EXPECT_EQ(symmetric_interval(count_to(101), 0.9).lo, 5);
  std::vector<double> squares = count_to(100);
  for (double& v : squares) v *= v;
  const Interval s = shortest_interval(squares, 0.9);
  EXPECT_EQ(s.lo, 1);
  EXPECT_EQ(s.hi, 91 * 91);
}

TEST(Intervals, RefuseNonsense) {
  EXPECT_THROW((void)symmetric_interval(count_to(100), 1), Error);
  EXPECT_THROW((void)symmetric_interval(count_to(100), nan), Error);
  EXPECT_THROW((void)symmetric_interval(count_to(5), 0.95), Error);
  EXPECT_THROW((void)shortest_interval(std::vector<double>{}, 0.5), Error);
}

// [jcgm101] 7.9.2, examples 1 and 2: 0.35 g with two digits, 2 K with one.
TEST(NumericalTolerance, HalfADigit) {
  EXPECT_DOUBLE_EQ(numerical_tolerance(0.35, 2), 0.005);
  EXPECT_DOUBLE_EQ(numerical_tolerance(2, 1), 0.5);
  EXPECT_DOUBLE_EQ(numerical_tolerance(32, 1), 5);
  EXPECT_DOUBLE_EQ(numerical_tolerance(9.96, 2), 0.5);
  EXPECT_DOUBLE_EQ(numerical_tolerance(9.94, 2), 0.05);
  EXPECT_DOUBLE_EQ(numerical_tolerance(1000, 2), 50);
  EXPECT_EQ(numerical_tolerance(0, 2), 0);
  EXPECT_THROW((void)numerical_tolerance(1, 0), Error);
  EXPECT_THROW((void)numerical_tolerance(1, 5), Error);
  EXPECT_THROW((void)numerical_tolerance(nan, 2), Error);
  EXPECT_THROW((void)numerical_tolerance(-1, 2), Error);
}

struct TwoInputs {
  Inputs inputs;
  InputRef a, b;
  TwoInputs()
      : a{inputs.add(normal("a", "", 10, 3, ""))}, b{inputs.add(rectangular("b", "", 20, 4, ""))} {}
  [[nodiscard]] Model sum() const {
    return [a = a, b = b](const Point& x) { return std::vector{x[a] + x[b], x[b]}; };
  }
};

TEST(MonteCarlo, AgreesWithTheLawForASum) {
  const TwoInputs s;
  const MonteCarlo mc = monte_carlo(s.inputs, s.sum(), {.digits = 1});
  EXPECT_TRUE(mc.converged);
  ASSERT_EQ(mc.outputs.size(), 2U);
  const MonteCarloOutput& y = mc.outputs[0];
  EXPECT_NEAR(y.mean, 30, y.scatter);
  EXPECT_NEAR(y.u, std::sqrt(9 + 16 / 3.0), y.scatter);
  EXPECT_LE(y.scatter, y.tolerance);
  // A rectangular output: 95 % of its width.
  EXPECT_NEAR(mc.outputs[1].symmetric.lo, 20 - 0.95 * 4, mc.outputs[1].scatter);
  EXPECT_NEAR(mc.outputs[1].symmetric.hi, 20 + 0.95 * 4, mc.outputs[1].scatter);
  EXPECT_TRUE(y.sample.empty());
  EXPECT_EQ(mc.beyond, 0);
}

// The scatter is two standard deviations, so the error of an end is half of it on average over
// many seeds (root mean square), within the spread of 30 seeds and of five blocks. Its size is that
// of textbooks: the p quantile of n values has the standard deviation √(p (1 - p) / n) / f, here
// 0.0119 for one end from 5 blocks of 10 000. Of two ends, each known from five blocks (four
// degrees of freedom: mean 0.94, spread 0.34), the larger is 1.13 times that with a spread of 0.3,
// over 30 seeds 0.055.
TEST(MonteCarlo, TheScatterIsThatOfTheSeeds) {
  Inputs in;
  const InputRef a = in.add(normal("a", "", 0, 1, ""));
  const Model model = [&](const Point& x) { return std::vector{x[a]}; };
  double squares = 0;
  double scatters = 0;
  constexpr int seeds = 30;
  for (std::uint64_t seed = 1; seed <= seeds; ++seed) {
    const MonteCarloOutput y = monte_carlo(in, model, {.seed = seed, .digits = 1}).outputs[0];
    squares += std::pow((y.symmetric.hi - 1.959964) / y.scatter, 2);
    scatters += y.scatter;
  }
  const double ratio = std::sqrt(squares / seeds);
  EXPECT_GT(ratio, 0.25);
  EXPECT_LT(ratio, 0.6);
  const double one_end = std::sqrt(0.025 * 0.975 / 50'000) / 0.058445;
  EXPECT_NEAR(scatters / seeds / (2 * one_end), 1.13, 3 * 0.055);
}

TEST(MonteCarlo, ASeedReproducesEveryBit) {
  const TwoInputs s;
  const auto run = [&](std::uint64_t seed) {
    return monte_carlo(s.inputs, s.sum(),
                       {.seed = seed, .digits = 1, .max_trials = 50'000, .keep = {0}});
  };
  const MonteCarlo one = run(1);
  const MonteCarlo again = run(1);
  EXPECT_EQ(one.trials, again.trials);
  EXPECT_EQ(one.outputs[0].sample, again.outputs[0].sample);
  EXPECT_EQ(one.outputs[1].u, again.outputs[1].u);
  EXPECT_NE(one.outputs[0].sample, run(2).outputs[0].sample);
  EXPECT_EQ(one.outputs[0].sample.size(), one.trials);
  EXPECT_TRUE(std::is_sorted(one.outputs[0].sample.begin(), one.outputs[0].sample.end()));
}

TEST(MonteCarlo, StopsUnstableAndSaysSo) {
  const TwoInputs s;
  const MonteCarlo mc = monte_carlo(s.inputs, s.sum(), {.digits = 4, .max_trials = 65'000});
  EXPECT_FALSE(mc.converged);
  EXPECT_FALSE(mc.outputs[0].converged);
  EXPECT_EQ(mc.trials, 60'000U);  // whole blocks
  EXPECT_GT(mc.outputs[0].scatter, mc.outputs[0].tolerance);
}

// More digits take more trials; the blocks of p = 0.999 hold 100 000.
TEST(MonteCarlo, GoesOnUntilStable) {
  const TwoInputs s;
  const auto trials = [&](double p, int digits) {
    return monte_carlo(s.inputs, s.sum(), {.p = p, .digits = digits}).trials;
  };
  EXPECT_EQ(trials(0.95, 1), 50'000U);
  EXPECT_GT(trials(0.95, 2), 50'000U);
  EXPECT_EQ(trials(0.999, 1), 500'000U);
}

TEST(MonteCarlo, TakesTheLeastNumberOfTrials) {
  const TwoInputs s;
  const MonteCarlo mc = monte_carlo(s.inputs, s.sum(), {.digits = 1, .min_trials = 75'000});
  EXPECT_TRUE(mc.converged);
  EXPECT_EQ(mc.trials, 80'000U);  // whole blocks
}

// The rule is the stated distance, whatever the digits of u would be.
TEST(MonteCarlo, IsStableToAStatedTolerance) {
  const TwoInputs s;
  const MonteCarlo coarse = monte_carlo(s.inputs, s.sum(), {.tolerances = {1, 1}});
  EXPECT_EQ(coarse.trials, 50'000U);
  EXPECT_EQ(coarse.outputs[0].tolerance, 1);
  const MonteCarlo never =
      monte_carlo(s.inputs, s.sum(), {.max_trials = 60'000, .tolerances = {1, 1e-9}});
  EXPECT_FALSE(never.converged);
  EXPECT_TRUE(never.outputs[0].converged);
  EXPECT_FALSE(never.outputs[1].converged);
}

TEST(MonteCarlo, ReportsProgress) {
  const TwoInputs s;
  std::vector<double> seen;
  MonteCarloOptions options{.digits = 4, .max_trials = 50'000};
  options.progress = [&](double done) { seen.push_back(done); };
  (void)monte_carlo(s.inputs, s.sum(), options);
  EXPECT_EQ(seen, (std::vector<double>{0.2, 0.4, 0.6, 0.8, 1}));
  seen.clear();
  options.max_trials = 59'000;  // no room for a sixth block
  (void)monte_carlo(s.inputs, s.sum(), options);
  EXPECT_EQ(seen.size(), 5U);
  EXPECT_EQ(seen.back(), 1);
  options.progress = [](double) { throw std::runtime_error{"enough"}; };
  EXPECT_THROW((void)monte_carlo(s.inputs, s.sum(), options), std::runtime_error);
}

// Below -2.5 u lies 0.62 % of a normal input, below -2 u 2.3 %.
TEST(MonteCarlo, TrialsBeyondTheModelAreCountedAndLimited) {
  Inputs in;
  const InputRef t = in.add(normal("t", "", 0, 1, ""));
  const auto above = [&](double limit) {
    return [t, limit](const Point& x) {
      if (x[t] < limit) throw Error{Errc::domain, "water is ice"};
      return std::vector{x[t]};
    };
  };
  const MonteCarlo mc = monte_carlo(in, above(-2.5), {.digits = 1});
  EXPECT_NEAR(mc.beyond, 0.00621, 4 * std::sqrt(0.00621 / 50'000));
  EXPECT_EQ(mc.trials % 10'000, 0U);
  try {
    (void)monte_carlo(in, above(-2), {.digits = 1});
    ADD_FAILURE();
  } catch (const Error& e) {
    EXPECT_EQ(e.code, Errc::domain);
    EXPECT_NE(std::string{e.what()}.find("beyond the model"), std::string::npos);
    EXPECT_EQ(std::string{e.what()}.find("water is ice"), std::string::npos)
        << "a drawn value is nobody's reading";
    EXPECT_FALSE(e.hint.empty());
  }
}

TEST(MonteCarlo, RefusesWhatItCannotJudge) {
  const TwoInputs s;
  const auto with = [&](const MonteCarloOptions& o) { (void)monte_carlo(s.inputs, s.sum(), o); };
  EXPECT_THROW(with({.p = 0.4}), Error);
  EXPECT_THROW(with({.p = 1}), Error);
  EXPECT_THROW(with({.p = nan}), Error);
  EXPECT_THROW(with({.digits = 0}), Error);
  EXPECT_THROW(with({.max_trials = 49'999}), Error);
  EXPECT_THROW(with({.max_trials = 10'000'001}), Error);
  EXPECT_THROW(with({.p = 0.9999}), Error);  // five blocks of a million
  EXPECT_THROW(with({.keep = {2}}), Error);
  EXPECT_THROW(with({.max_trials = 60'000, .min_trials = 60'001}), Error);
  EXPECT_THROW(with({.tolerances = {1}}), Error);
  EXPECT_THROW(with({.tolerances = {1, nan}}), Error);
  EXPECT_THROW(with({.tolerances = {1, -1}}), Error);
  EXPECT_THROW((void)monte_carlo(s.inputs, [](const Point&) { return std::vector{nan}; }), Error);
  EXPECT_THROW((void)monte_carlo(s.inputs, [](const Point&) { return std::vector<double>{}; }),
               Error);
  // Not a number away from the estimates only.
  EXPECT_THROW((void)monte_carlo(
                   s.inputs, [&](const Point& x) { return std::vector{x[s.a] == 10 ? 1.0 : nan}; }),
               Error);
}

MonteCarloOutput sampled(double lo, double hi, double scatter) {
  MonteCarloOutput m;
  m.symmetric = {lo, hi};
  m.scatter = scatter;
  return m;
}

// 10 ± 1.96 with u = 1.0: two digits give a tolerance of 0.05.
TEST(Agree, ByHand) {
  const Value v{10, 1};
  const Comparison c = agree(v, sampled(8.04 + 0.04, 11.96 + 0.03, 0.01));
  EXPECT_NEAR(c.d_low, 0.04, 1e-4);
  EXPECT_NEAR(c.d_high, 0.03, 1e-4);
  EXPECT_DOUBLE_EQ(c.tolerance, 0.05);
  EXPECT_EQ(c.verdict, Agreement::agree);
  EXPECT_EQ(agree(v, sampled(8.04, 11.96 - 0.06, 0.01)).verdict, Agreement::differ);
  EXPECT_EQ(agree(v, sampled(8.04 - 0.06, 11.96, 0.01)).verdict, Agreement::differ);
  EXPECT_EQ(agree(v, sampled(8.04, 11.96, 0.06)).verdict, Agreement::cannot_tell);
  EXPECT_EQ(agree(v, sampled(8.04, 11.96 - 0.2, 0.06)).verdict, Agreement::differ);
  EXPECT_EQ(agree(v, sampled(8.04 - 0.06, 11.96, 0.01), 1).verdict, Agreement::agree);
  EXPECT_EQ(agree_within(v, sampled(8.04 - 0.06, 11.96, 0.01), 0.07).verdict, Agreement::agree);
  EXPECT_EQ(agree_within(v, sampled(8.04 - 0.06, 11.96, 0.01), 0.05).verdict, Agreement::differ);
  EXPECT_THROW((void)agree_within(v, sampled(8, 12, 0), nan), Error);
  EXPECT_THROW((void)agree_within(v, sampled(8, 12, 0), -1), Error);
  EXPECT_THROW((void)agree(v, sampled(nan, 1, 0)), Error);
  EXPECT_THROW((void)agree({10, nan}, sampled(8, 12, 0)), Error);
}

}  // namespace
}  // namespace areo::uncertainty
