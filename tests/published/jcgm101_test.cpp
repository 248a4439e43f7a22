// SPDX-License-Identifier: GPL-3.0-or-later
// Propagation of distributions: the worked examples of [jcgm101] clause 9 from tables/.
//
// A sampled number is compared within half of its last printed digit, for the printed one, and its
// own scatter (two standard deviations over the blocks), for ours; the printed ones come from a
// million trials as well, so that theirs is added: the same once more. Where [jcgm101] prints a
// shortest interval, whose ends wander more, the reason for its tolerance stands beside.
#include <gtest/gtest.h>

#include <cmath>
#include <string>
#include <vector>

#include "areo/uncertainty/monte_carlo.hpp"
#include "areo/uncertainty/propagate.hpp"
#include "rows.hpp"

namespace areo::published {
namespace {

using uncertainty::Agreement;
using uncertainty::InputRef;
using uncertainty::Inputs;
using uncertainty::Model;
using uncertainty::MonteCarloOptions;
using uncertainty::MonteCarloOutput;
using uncertainty::Point;

Row row(const std::string& clause) { return rows_of("jcgm101-examples", "clause", clause).at(0); }

void expect_printed(double value, const Row& r, const char* column, double sampling) {
  EXPECT_NEAR(value, r.number(column), r[column].half_digit + sampling) << column << '\n'
                                                                        << r.where();
}

void expect_symmetric(const MonteCarloOutput& y, const Row& r) {
  expect_printed(y.mean, r, "mean", 2 * y.scatter);
  expect_printed(y.u, r, "std_uncertainty", 2 * y.scatter);
  expect_printed(y.symmetric.lo, r, "low", 2 * y.scatter);
  expect_printed(y.symmetric.hi, r, "high", 2 * y.scatter);
}

struct Sum {
  Inputs inputs;
  Model model = [](const Point& x) {
    return std::vector{x[InputRef{0}] + x[InputRef{1}] + x[InputRef{2}] + x[InputRef{3}]};
  };
  void normal() { (void)inputs.add(uncertainty::normal("x", "", 0, 1, "")); }
  void rectangular(double u) {
    (void)inputs.add(uncertainty::rectangular("x", "", 0, u * std::sqrt(3.0), ""));
  }
  [[nodiscard]] MonteCarloOutput sampled() const {
    return uncertainty::monte_carlo(inputs, model, {.digits = 3}).outputs[0];
  }
  [[nodiscard]] Agreement verdict() const {
    return uncertainty::agree(uncertainty::propagate(inputs, model).values[0], sampled()).verdict;
  }
};

TEST(Jcgm101, FourNormalInputs) {
  Sum s;
  for (int i = 0; i < 4; ++i) s.normal();
  expect_symmetric(s.sampled(), row("9.2.2"));
  EXPECT_EQ(s.verdict(), Agreement::agree);
}

TEST(Jcgm101, FourRectangularInputs) {
  Sum s;
  for (int i = 0; i < 4; ++i) s.rectangular(1);
  const MonteCarloOutput y = s.sampled();
  expect_symmetric(y, row("9.2.3"));
  // Printed beside the table: 2 √3 (2 - (3/5)^(1/4)).
  EXPECT_NEAR(y.symmetric.hi, 3.879407, y.scatter);
}

// One rectangular input rules: the law of propagation states 19.9, the truth is 17.0.
TEST(Jcgm101, OneInputRules) {
  Sum s;
  for (int i = 0; i < 3; ++i) s.rectangular(1);
  s.rectangular(10);
  expect_symmetric(s.sampled(), row("9.2.4"));
  const auto law = uncertainty::propagate(s.inputs, s.model).values[0];
  EXPECT_NEAR(law.expanded(), 19.9, 0.05);
  EXPECT_EQ(s.verdict(), Agreement::differ);
}

TEST(Jcgm101, MassCalibration) {
  Inputs in;
  const InputRef m = in.add(uncertainty::normal("m", "mg", 100000, 0.050, ""));
  const InputRef dm = in.add(uncertainty::normal("dm", "mg", 1.234, 0.020, ""));
  const InputRef air = in.add(uncertainty::between("air", "kg/m³", 1.10, 1.30, ""));
  const InputRef weight = in.add(uncertainty::between("weight", "kg/m³", 7000, 9000, ""));
  const InputRef reference = in.add(uncertainty::between("reference", "kg/m³", 7950, 8050, ""));
  const Model model = [&](const Point& x) {
    return std::vector{(x[m] + x[dm]) * (1 + (x[air] - 1.2) * (1 / x[weight] - 1 / x[reference])) -
                       100000};
  };
  const auto law = uncertainty::propagate(in, model, {.check_linearity = true});
  expect_printed(law.values[0].estimate, row("9.3 GUF1"), "mean", 0);
  expect_printed(law.values[0].u, row("9.3 GUF1"), "std_uncertainty", 0);
  expect_printed(law.values[0].estimate - law.values[0].expanded(), row("9.3 GUF1"), "low", 0);
  expect_printed(law.values[0].estimate + law.values[0].expanded(), row("9.3 GUF1"), "high", 0);
  expect_printed(law.u_second_order[0], row("9.3 GUF2"), "std_uncertainty", 0);
  const MonteCarloOutput y = uncertainty::monte_carlo(in, model).outputs[0];
  expect_printed(y.mean, row("9.3 MCM"), "mean", 2 * y.scatter);
  expect_printed(y.u, row("9.3 MCM"), "std_uncertainty", 2 * y.scatter);
  // Printed is a shortest interval, which has slid: its ends are 0.1507 and 0.1484 from the mean.
  // The distribution is symmetric, so the lengths can be compared.
  const Row r = row("9.3 MCM");
  EXPECT_NEAR(y.symmetric.hi - y.symmetric.lo, r.number("high") - r.number("low"),
              2 * r["high"].half_digit + 2 * y.scatter);
  EXPECT_NEAR(y.shortest.hi - y.shortest.lo, r.number("high") - r.number("low"),
              2 * r["high"].half_digit + 2 * y.scatter);
  EXPECT_EQ(uncertainty::agree(law.values[0], y).verdict, Agreement::differ);
}

struct Loss {
  Inputs inputs;
  Model model = [](const Point& x) {
    const double a = x[InputRef{0}];
    const double b = x[InputRef{1}];
    return std::vector{1e6 * (a * a + b * b)};
  };
  Loss(double x1, double r) {
    const InputRef a = inputs.add(uncertainty::normal("X1", "", x1, 0.005, ""));
    const InputRef b = inputs.add(uncertainty::normal("X2", "", 0, 0.005, ""));
    if (r != 0) inputs.correlate(a, b, r);
  }
};

class ComparisonLoss : public testing::TestWithParam<double> {};

TEST_P(ComparisonLoss, MomentsAreExact) {
  for (const double r : {0.0, 0.9}) {
    const Loss loss{GetParam(), r};
    const MonteCarloOutput y = uncertainty::monte_carlo(loss.inputs, loss.model).outputs[0];
    const double x1 = GetParam() * 1e3;  // so that squares are in 1e-6
    const double u2 = 25;
    EXPECT_NEAR(y.mean, x1 * x1 + 2 * u2, y.scatter);
    EXPECT_NEAR(y.u, std::sqrt(4 * u2 * u2 * (1 + r * r) + 4 * x1 * x1 * u2), y.scatter);
  }
}
INSTANTIATE_TEST_SUITE_P(X1, ComparisonLoss, testing::Values(0, 0.010, 0.050));

// An end of an interval scatters by √(p (1 - p) / n) / f with the density f there: by 0.22, 0.32
// and 1.35 (1e-6) for the upper ends and a million trials; four of these. In the last case the
// lower end is free too, and the interval may slide by 15 before its length shows it.
TEST(Jcgm101, ComparisonLossAsPrinted) {
  struct Case {
    const char* clause;
    double x1, sampling;
  };
  for (const auto& [clause, x1, sampling] : {Case{"9.4 r=0 x1=0", 0, 0.9},
                                             {"9.4 r=0 x1=0.010", 0.010, 1.3},
                                             {"9.4 r=0 x1=0.050", 0.050, 15}}) {
    const Loss loss{x1, 0};
    const MonteCarloOutput y =
        uncertainty::monte_carlo(loss.inputs, loss.model, {.digits = 4}).outputs[0];
    const Row r = row(clause);
    expect_printed(y.mean, r, "mean", 2 * y.scatter);
    expect_printed(y.u, r, "std_uncertainty", 2 * y.scatter);
    expect_printed(y.shortest.lo, r, "low", sampling);
    expect_printed(y.shortest.hi, r, "high", sampling);
    // Two printed ends of half a digit, and two that scatter.
    EXPECT_NEAR(y.shortest.hi - y.shortest.lo, r.number("high") - r.number("low"), 1 + 8 * 1.35);
  }
}

// About zero the sum of two squares is exponential with mean 2 u²: shortest 0 .. -2 u² ln 0.05.
TEST(Jcgm101, ComparisonLossAboutZero) {
  const Loss loss{0, 0};
  const MonteCarloOutput y =
      uncertainty::monte_carlo(loss.inputs, loss.model, {.digits = 4}).outputs[0];
  EXPECT_NEAR(y.shortest.lo, 0, 0.01);
  EXPECT_NEAR(y.shortest.hi, -50 * std::log(0.05), 0.9);
  EXPECT_NEAR(y.symmetric.lo, -50 * std::log(0.975), y.scatter);
  EXPECT_NEAR(y.symmetric.hi, -50 * std::log(0.025), y.scatter);
  // The law of propagation knows nothing of it: its first-order u is zero.
  const auto law = uncertainty::propagate(loss.inputs, loss.model).values[0];
  EXPECT_NEAR(law.u, 0, 1e-12);
  EXPECT_EQ(uncertainty::agree(law, y).verdict, Agreement::differ);
}

TEST(Jcgm101, GaugeBlock) {
  Inputs in;
  const InputRef ls = in.add(uncertainty::student_t("ls", "nm", 50000623, 25, 18, ""));
  const InputRef d = in.add(uncertainty::student_t("D", "nm", 215, 6, 24, ""));
  const InputRef d1 = in.add(uncertainty::student_t("d1", "nm", 0, 4, 5, ""));
  const InputRef d2 = in.add(uncertainty::student_t("d2", "nm", 0, 7, 8, ""));
  const InputRef alpha_s = in.add(uncertainty::between("alpha_s", "1/°C", 9.5e-6, 13.5e-6, ""));
  const InputRef theta0 = in.add(uncertainty::normal("theta0", "°C", -0.1, 0.2, ""));
  const InputRef swing = in.add(uncertainty::arcsine("Delta", "°C", 0, 0.5, ""));
  const InputRef dalpha =
      in.add(uncertainty::curvilinear_trapezoid("dalpha", "1/°C", 0, 1e-6, 0.1e-6, ""));
  const InputRef dtheta =
      in.add(uncertainty::curvilinear_trapezoid("dtheta", "°C", 0, 0.050, 0.025, ""));
  const Model model = [&](const Point& x) {
    return std::vector{x[ls] + x[d] + x[d1] + x[d2] -
                       x[ls] * (x[dalpha] * (x[theta0] + x[swing]) + x[alpha_s] * x[dtheta]) -
                       50000000};
  };
  EXPECT_NEAR(uncertainty::propagate(in, model).values[0].u, 32, 0.5);
  const MonteCarloOutput y =
      uncertainty::monte_carlo(in, model, {.p = 0.99, .max_trials = 300'000}).outputs[0];
  expect_symmetric(y, row("9.5"));
}

}  // namespace
}  // namespace areo::published
