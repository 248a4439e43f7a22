// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/uncertainty/input.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <vector>

#include "areo/core/error.hpp"

namespace areo::uncertainty {
namespace {

constexpr double nan = std::numeric_limits<double>::quiet_NaN();

// Of 1 .. n: mean (n + 1) / 2, variance n (n + 1) / 12.
std::vector<double> count_to(int n) {
  std::vector<double> values;
  for (int i = 1; i <= n; ++i) values.push_back(i);
  return values;
}

TEST(Shapes, StandardUncertaintyOfEach) {
  EXPECT_DOUBLE_EQ(arcsine("", "", 0, 2, "").u, std::sqrt(2.0));
  // [jcgm101] 6.4.3 with a, b = -3, 3 and d = 1.
  EXPECT_DOUBLE_EQ(curvilinear_trapezoid("", "", 0, 3, 1, "").u, std::sqrt(36 / 12.0 + 1 / 9.0));
  EXPECT_DOUBLE_EQ(curvilinear_trapezoid("", "", 0, 3, 0, "").u, rectangular("", "", 0, 3, "").u);
  const Input t = student_t("", "", 5, 2, 7, "");
  EXPECT_EQ(t.u, 2);
  EXPECT_EQ(t.degrees_of_freedom, 7);
  EXPECT_EQ(t.type, Evaluation::type_a);
  const Input s = sample("", "", count_to(20), "");
  EXPECT_DOUBLE_EQ(s.value, 10.5);
  EXPECT_DOUBLE_EQ(s.u, std::sqrt(35.0));
  EXPECT_EQ(s.degrees_of_freedom, 19);
}

TEST(Repeated, ScatterLargerThanTheSteps) {
  const std::vector<double> readings{9.9, 10.0, 10.1};
  const Input in = repeated("x", "", readings, 0.1, "");
  EXPECT_DOUBLE_EQ(in.value, 10.0);
  EXPECT_NEAR(in.u, 0.1 / std::sqrt(3.0), 1e-15);
  EXPECT_EQ(in.degrees_of_freedom, 2);
  EXPECT_EQ(in.type, Evaluation::type_a);
  EXPECT_EQ(in.shape, Distribution::student_t);
}

TEST(Repeated, EqualReadingsAreNoBetterThanTheirSteps) {
  const std::vector<double> readings(100, 10.0);
  const Input in = repeated("x", "", readings, 0.1, "");
  EXPECT_NEAR(in.u, 0.1 / std::sqrt(12.0), 1e-15);
  EXPECT_EQ(in.type, Evaluation::type_b);
  EXPECT_EQ(in.shape, Distribution::rectangular);
  EXPECT_TRUE(std::isinf(in.degrees_of_freedom));
}

// s / √n = 0.05 here; a step of 0.1732 has the same u.
TEST(Repeated, TheLargerOneCounts) {
  const std::vector<double> readings{10.0, 10.1};
  EXPECT_EQ(repeated("x", "", readings, 0.17, "").type, Evaluation::type_a);
  EXPECT_EQ(repeated("x", "", readings, 0.18, "").type, Evaluation::type_b);
}

TEST(Repeated, RefusesWhatIsNoSeries) {
  EXPECT_THROW((void)repeated("x", "", std::vector{1.0}, 0, ""), Error);
  EXPECT_THROW((void)repeated("x", "", std::vector{1.0, nan}, 0, ""), Error);
  EXPECT_THROW((void)repeated("x", "", std::vector{1.0, 2.0}, -1, ""), Error);
  EXPECT_THROW((void)repeated("x", "", std::vector{1.0, 2.0}, nan, ""), Error);
}

TEST(Inputs, RefuseShapesThatLackSomething) {
  Inputs in;
  EXPECT_NO_THROW((void)in.add(curvilinear_trapezoid("x", "", 0, 1, 1, "")));
  EXPECT_THROW((void)in.add(curvilinear_trapezoid("x", "", 0, 1, 1.001, "")), Error);
  EXPECT_THROW((void)in.add(curvilinear_trapezoid("x", "", 0, 1, -0.1, "")), Error);
  EXPECT_THROW((void)in.add(curvilinear_trapezoid("x", "", 0, 1, nan, "")), Error);
  EXPECT_THROW((void)in.add(student_t("x", "", 0, 1, 0.5, "")), Error);
  EXPECT_THROW((void)in.add(student_t("x", "", 0, 1, nan, "")), Error);
  Input odd = normal("x", "", 0, 1, "");
  odd.limit_error = 0.1;
  EXPECT_THROW((void)in.add(odd), Error);
  odd = normal("x", "", 0, 1, "");
  odd.read = count_to(20);
  EXPECT_THROW((void)in.add(odd), Error);
  odd.shape = Distribution::sample;
  try {
    (void)in.add(odd);
    ADD_FAILURE();
  } catch (const Error& e) {
    EXPECT_EQ(e.code, Errc::inconsistent);
  }
  EXPECT_THROW((void)sample("x", "", count_to(19), ""), Error);
}

// --- origin and step ---

TEST(From, KeepsTheInput) {
  const Input in = from(Origin::reading, triangular("a", "m", 2, 0.5, "by eye"), 0.5);
  EXPECT_EQ(in.origin, Origin::reading);
  EXPECT_EQ(in.step, 0.5);
  EXPECT_EQ(in.value, 2);
  EXPECT_EQ(in.u, triangular("a", "m", 2, 0.5, "by eye").u);
  EXPECT_EQ(normal("b", "", 0, 1, "").origin, Origin::other);
}

TEST(Inputs, RefuseAStepThatIsNone) {
  Inputs inputs;
  for (const double step :
       {-1.0, std::numeric_limits<double>::quiet_NaN(), std::numeric_limits<double>::infinity()})
    EXPECT_THROW(inputs.add(from(Origin::reading, normal("a", "", 0, 1, ""), step)), Error);
}

}  // namespace
}  // namespace areo::uncertainty
