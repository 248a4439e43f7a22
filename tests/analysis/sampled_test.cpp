// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/analysis/sampled.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <string>
#include <vector>

namespace areo::analysis {
namespace {

using uncertainty::Agreement;
using uncertainty::Inputs;
using uncertainty::Point;

// A sum of two normal inputs, and one rectangular input alone.
measurement::Result straight() {
  Inputs inputs;
  const auto a = inputs.add(uncertainty::normal("a", "", 10, 3, ""));
  const auto b = inputs.add(uncertainty::normal("b", "", 20, 4, ""));
  const auto c = inputs.add(uncertainty::rectangular("c", "", 5, 1, ""));
  return measurement::evaluate(inputs,
                               [=](const Point& x) {
                                 return std::vector{x[a] + x[b], x[c]};
                               },
                               {{"sum", "sum", ""}, {"flat", "flat", ""}});
}

// U of the sum is 9.8, quoted to tenths. Of the rectangular one the law has 1.96 / √3 = 1.13, while
// 95 % lie within 0.95.
TEST(Sampled, TellsWhatTheLawGetsWrong) {
  const Sampled s = sample(straight());
  EXPECT_TRUE(s.converged);
  ASSERT_EQ(s.quantities.size(), 2U);
  EXPECT_DOUBLE_EQ(s.quantities[0].comparison.tolerance, 0.05);
  EXPECT_EQ(s.quantities[0].comparison.verdict, Agreement::agree);
  EXPECT_EQ(s.quantities[1].comparison.verdict, Agreement::differ);
  // The scatter that the sampling itself states.
  EXPECT_NEAR(s.quantities[1].output.symmetric.lo, 4.05, s.quantities[1].output.scatter);
  EXPECT_NEAR(s.quantities[1].output.symmetric.hi, 5.95, s.quantities[1].output.scatter);
}

TEST(Sampled, KeepsWhatIsAskedFor) {
  const Sampled s = sample(straight(), {.seed = 3, .min_trials = 1'005'000, .keep = {1}});
  EXPECT_EQ(s.seed, 3U);
  EXPECT_EQ(s.trials, 1'010'000U);  // whole blocks, beyond the usual limit
  EXPECT_TRUE(s.quantities[0].output.sample.empty());
  EXPECT_EQ(s.quantities[1].output.sample.size(), s.trials);
}

// Where nobody asked, it ends early.
TEST(Sampled, EndsWhereItIsTold) {
  Inputs inputs;
  const auto a = inputs.add(uncertainty::student_t("a", "", 10, 1, 3, ""));
  const measurement::Result r = measurement::evaluate(
      inputs, [=](const Point& x) { return std::vector{x[a]}; }, {{"wide", "wide", ""}});
  const Sampled s = sample(r, {.max_trials = 50'000});
  EXPECT_EQ(s.trials, 50'000U);
  EXPECT_FALSE(s.converged);
}

// The square of an input about zero is nothing like straight; sums are.
TEST(BeyondTheLaw, NamesTheQuantityAndWhy) {
  EXPECT_TRUE(beyond_the_law(straight()).empty());
  Inputs inputs;
  const auto a = inputs.add(uncertainty::normal("a", "", 0, 1, ""));
  const measurement::Result r =
      measurement::evaluate(inputs,
                            [=](const Point& x) {
                              return std::vector{x[a], x[a] * x[a]};
                            },
                            {{"itself", "itself", ""}, {"square", "square", ""}});
  const auto found = beyond_the_law(r);
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].quantity, 1U);
  EXPECT_NE(found[0].why.find("second order"), std::string::npos) << found[0].why;
}

}  // namespace
}  // namespace areo::analysis
