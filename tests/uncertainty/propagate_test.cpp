// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/uncertainty/propagate.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "areo/core/error.hpp"

namespace areo::uncertainty {
namespace {

constexpr double nan = std::numeric_limits<double>::quiet_NaN();
constexpr double inf = std::numeric_limits<double>::infinity();

TEST(Inputs, StandardUncertaintyOfEachShape) {
  EXPECT_DOUBLE_EQ(rectangular("", "", 0, 3, "").u, std::sqrt(3.0));
  EXPECT_DOUBLE_EQ(triangular("", "", 0, 6, "").u, std::sqrt(6.0));
  EXPECT_DOUBLE_EQ(normal("", "", 0, 2, "").u, 2);
  const Input b = between("", "", 1, 4, "");
  EXPECT_DOUBLE_EQ(b.value, 2.5);
  EXPECT_DOUBLE_EQ(b.u, 3 / std::sqrt(12.0));
}

TEST(Inputs, RefuseWhatIsNoUncertainty) {
  Inputs in;
  EXPECT_THROW((void)in.add(normal("x", "", nan, 1, "")), Error);
  EXPECT_THROW((void)in.add(normal("x", "", 1, nan, "")), Error);
  EXPECT_THROW((void)in.add(normal("x", "", 1, -1, "")), Error);
  EXPECT_THROW((void)in.add(normal("x", "", 1, inf, "")), Error);
  const InputRef a = in.add(normal("a", "", 1, 1, ""));
  EXPECT_THROW(in.correlate(a, a, 0.5), Error);
  const InputRef b = in.add(normal("b", "", 1, 1, ""));
  EXPECT_THROW(in.correlate(a, b, 1.5), Error);
  EXPECT_THROW(in.correlate(a, b, nan), Error);
  in.correlate(a, b, 0.5);
  EXPECT_THROW(in.correlate(b, a, 0.5), Error);
}

TEST(Propagate, LinearModelExactly) {
  Inputs in;
  const auto a = in.add(normal("a", "", 10, 3, ""));
  const auto b = in.add(normal("b", "", 20, 4, ""));
  const Propagation p = propagate(in, [&](const Point& x) {
    return std::vector{x[a] + x[b], 2 * x[a] - x[b]};
  });
  EXPECT_DOUBLE_EQ(p.values[0].estimate, 30);
  EXPECT_NEAR(p.values[0].u, 5, 1e-12);
  EXPECT_NEAR(p.values[1].u, std::hypot(6, 4), 1e-12);
  EXPECT_NEAR(p.shares[1][a.index], 6, 1e-12);
  EXPECT_NEAR(p.shares[1][b.index], -4, 1e-12);
}

TEST(Propagate, CorrelationsCount) {
  const auto difference = [](double r) {
    Inputs in;
    const auto a = in.add(normal("a", "", 1, 1, ""));
    const auto b = in.add(normal("b", "", 1, 1, ""));
    in.correlate(a, b, r);
    return propagate(in, [&](const Point& x) { return std::vector{x[a] - x[b]}; }).values[0].u;
  };
  EXPECT_NEAR(difference(1), 0, 1e-7);
  EXPECT_NEAR(difference(0), std::sqrt(2.0), 1e-12);
  EXPECT_NEAR(difference(-1), 2, 1e-12);
}

TEST(Propagate, ASharedInputCancelsInADifference) {
  Inputs in;
  const auto offset = in.add(normal("offset", "", 0, 100, ""));
  const auto a = in.add(normal("a", "", 5, 1, ""));
  const auto b = in.add(normal("b", "", 3, 1, ""));
  const auto p = propagate(
      in, [&](const Point& x) { return std::vector{(x[a] + x[offset]) - (x[b] + x[offset])}; });
  EXPECT_NEAR(p.values[0].u, std::sqrt(2.0), 1e-9);
}

// [gum] G.4.1: 0.25 %, 0.57 %, 0.82 % with 9, 4, 14 degrees of freedom.
TEST(Propagate, GumG41) {
  Inputs in;
  const auto add = [&](double u, double nu) {
    Input i = normal("p", "%", 0, u, "[gum] G.4.1");
    i.degrees_of_freedom = nu;
    return in.add(i);
  };
  const auto a = add(0.25, 9);
  const auto b = add(0.57, 4);
  const auto c = add(0.82, 14);
  const Value v =
      propagate(in, [&](const Point& x) { return std::vector{x[a] + x[b] + x[c]}; }).values[0];
  EXPECT_NEAR(v.u, 1.03, 0.005);
  EXPECT_NEAR(v.degrees_of_freedom, 19.0, 0.05);
  EXPECT_NEAR(v.expanded(), 2.2, 0.05);
  EXPECT_NEAR(v.expanded() / v.u, 2.09, 0.005);
}

TEST(Value, ExpandedUsesTheNormalForInfiniteDegreesOfFreedom) {
  EXPECT_NEAR((Value{0, 1}).expanded(), 1.959964, 5e-7);
  EXPECT_EQ((Value{5, 0}).expanded(), 0);
}

TEST(Propagate, OneSidedAtTheEdgeOfAModel) {
  Inputs in;
  const auto t = in.add(normal("t", "", 0, 0.5, ""));
  const auto model = [&](const Point& x) {
    if (x[t] < 0) throw Error{Errc::domain, "below zero"};
    return std::vector{3 * x[t]};
  };
  EXPECT_NEAR(propagate(in, model).values[0].u, 1.5, 1e-12);
}

std::vector<Warning::Kind> kinds(const std::vector<Warning>& warnings) {
  std::vector<Warning::Kind> found;
  for (const Warning& w : warnings) found.push_back(w.kind);
  return found;
}
using Kinds = std::vector<Warning::Kind>;

TEST(Check, IsNotMadeUnlessAskedFor) {
  Inputs in;
  const auto a = in.add(normal("a", "", 0, 1, ""));
  int calls = 0;
  const auto square = [&](const Point& x) {
    ++calls;
    return std::vector{x[a] * x[a]};
  };
  const Propagation p = propagate(in, square);
  EXPECT_EQ(calls, 3);
  EXPECT_TRUE(p.u_second_order.empty());
  EXPECT_TRUE(p.warnings.at(0).empty());
}

TEST(Check, FindsNothingInALinearModel) {
  Inputs in;
  const auto a = in.add(normal("a", "", 10, 3, ""));
  const auto b = in.add(normal("b", "", 20, 4, ""));
  const Propagation p = propagate(in, [&](const Point& x) { return std::vector{x[a] - 2 * x[b]}; },
                                  {.check_linearity = true});
  EXPECT_TRUE(p.warnings[0].empty());
  EXPECT_NEAR(p.u_second_order[0], p.values[0].u, 1e-12);
}

// a² + a b with normal a, b about zero: variance 2 u_a⁴ + u_a² u_b², and no first order at all.
TEST(Check, SecondOrderByHand) {
  Inputs in;
  const auto a = in.add(normal("a", "", 0, 2, ""));
  const auto b = in.add(normal("b", "", 0, 3, ""));
  const Propagation p =
      propagate(in, [&](const Point& x) { return std::vector{x[a] * x[a] + x[a] * x[b]}; },
                {.check_linearity = true});
  EXPECT_NEAR(p.values[0].u, 0, 1e-12);
  EXPECT_NEAR(p.u_second_order[0], std::sqrt(2 * 16 + 4 * 9.0), 1e-12);
  EXPECT_EQ(kinds(p.warnings[0]), Kinds{Warning::Kind::second_order});
}

// a b² with b about zero and a about 5: f_a = 0, f_bb = 2 a, f_abb = 2. a + a b² besides: f_a = 1,
// so the variance is u_a² + (2 a)² u_b⁴ / 2 + f_a f_abb u_a² u_b².
TEST(Check, ThirdDerivativesCount) {
  Inputs in;
  const auto a = in.add(normal("a", "", 5, 2, ""));
  const auto b = in.add(normal("b", "", 0, 1, ""));
  const Propagation p =
      propagate(in, [&](const Point& x) { return std::vector{x[a] + x[a] * x[b] * x[b]}; },
                {.check_linearity = true});
  EXPECT_NEAR(p.u_second_order[0], std::sqrt(4 + 50 + 2 * 4.0), 1e-12);
}

// [jcgm101] 9.4.2.2.2: X1² + X2² with correlation r about zero has the variance 4 u⁴ (1 + r²).
TEST(Check, CorrelationsCount) {
  Inputs in;
  const auto a = in.add(normal("a", "", 0, 0.005, ""));
  const auto b = in.add(normal("b", "", 0, 0.005, ""));
  in.correlate(a, b, 0.9);
  const Propagation p =
      propagate(in, [&](const Point& x) { return std::vector{x[a] * x[a] + x[b] * x[b]}; },
                {.check_linearity = true});
  EXPECT_NEAR(p.u_second_order[0], std::sqrt(4 * 1.81) * 25e-6, 1e-15);
}

// x + x³ about 0 with u = 1: over ± 1 the slope is 2, over half of that 1.25. The variance to
// second order is f'² + f' f''' = 1 + 6.
TEST(Check, ASlopeThatDependsOnTheStepIsSaid) {
  Inputs in;
  const auto a = in.add(normal("the mark", "", 0, 1, ""));
  const Propagation p =
      propagate(in, [&](const Point& x) { return std::vector{x[a] + x[a] * x[a] * x[a]}; },
                {.check_linearity = true});
  ASSERT_FALSE(p.warnings[0].empty());
  EXPECT_EQ(p.warnings[0][0].kind, Warning::Kind::curved);
  EXPECT_NE(p.warnings[0][0].text.find("the mark"), std::string::npos);
  EXPECT_NEAR(p.u_second_order[0], std::sqrt(7.0), 1e-12);
}

TEST(Check, TheEdgeOfAModelIsSaid) {
  Inputs in;
  const auto a = in.add(normal("a", "", 0, 1, ""));
  const auto b = in.add(normal("b", "", 0.8, 1, ""));
  const auto model = [&](const Point& x) {
    if (x[a] < 0) throw Error{Errc::domain, "below zero"};
    return std::vector{x[a] + x[b], x[b]};
  };
  EXPECT_EQ(kinds(propagate(in, model).warnings[1]), Kinds{Warning::Kind::edge});
  const auto corner = [&](const Point& x) {
    if (x[a] + x[b] > 2) throw Error{Errc::domain, "above two"};
    return std::vector{x[a] - x[b]};
  };
  const Propagation p = propagate(in, corner, {.check_linearity = true});
  EXPECT_EQ(kinds(p.warnings[0]), Kinds{Warning::Kind::edge});
  EXPECT_NEAR(p.u_second_order[0], std::sqrt(2.0), 1e-12);
}

TEST(Propagate, RefusesWhatItCannotJudge) {
  Inputs in;
  const auto t = in.add(normal("the temperature", "", 0, 0.5, ""));
  const auto narrow = [&](const Point& x) {
    if (x[t] != 0) throw Error{Errc::domain, "only zero"};
    return std::vector{1.0};
  };
  try {
    (void)propagate(in, narrow);
    ADD_FAILURE();
  } catch (const Error& e) {
    EXPECT_NE(std::string{e.what()}.find("the temperature"), std::string::npos);
  }
  EXPECT_THROW((void)propagate(in, [](const Point&) { return std::vector{nan}; }), Error);
}

// By hand: 3, 4 and, from no input, 12 make 13; 3 and 4 fully correlated make 7.
TEST(Combined, AddsWhatIsNoInput) {
  Inputs inputs;
  const auto a = inputs.add(normal("a", "", 0, 1, ""));
  const auto b = inputs.add(normal("b", "", 0, 1, ""));
  const std::vector<double> shares{3, 4};
  EXPECT_DOUBLE_EQ(combined(1, shares, inputs).u, 5);
  EXPECT_DOUBLE_EQ(combined(1, shares, inputs, std::vector{12.0}).u, 13);
  inputs.correlate(a, b, 1);
  EXPECT_DOUBLE_EQ(combined(1, shares, inputs).u, 7);
  EXPECT_THROW((void)combined(1, std::vector{3.0}, inputs), Error);
}

}  // namespace
}  // namespace areo::uncertainty
