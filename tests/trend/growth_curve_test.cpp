// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/trend/growth_curve.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace areo::trend {
namespace {

constexpr double own = 0.0003;

struct Truth {
  Form form;
  double start = 1.050, final = 1.008, middle = 3, rate = 1.2;

  [[nodiscard]] double gravity(double day) const {
    const double z = rate * (day - middle);
    return start - (start - final) *
                       (form == Form::logistic ? 1 / (1 + std::exp(-z)) : std::exp(-std::exp(-z)));
  }
};

Series read(const Truth& f, int days) {
  Series s;
  for (int day = 0; day <= days; ++day) {
    s.days.push_back(day);
    s.gravity.push_back(f.gravity(day));
  }
  s.errors = numeric::SharedErrors::independent(std::vector<double>(s.size(), own));
  return s;
}

class EachForm : public testing::TestWithParam<Form> {};

TEST_P(EachForm, ExactReadingsGiveTheCurveBack) {
  const Truth f{GetParam()};
  const auto c = course_of(read(f, 9));
  ASSERT_TRUE(c);
  EXPECT_EQ(c->form, f.form);
  // Far below what is drawn: 1e-8 SG, 1e-5 of a day or a day's rate, about a second.
  EXPECT_NEAR(c->start, f.start, 1e-8);
  EXPECT_NEAR(c->final, f.final, 1e-8);
  EXPECT_NEAR(c->rate, f.rate, 1e-5);
  EXPECT_NEAR(c->middle, f.middle, 1e-5);
  for (const double day : {0.0, 2.5, 9.0}) EXPECT_NEAR(c->gravity(day), f.gravity(day), 1e-7);
}

INSTANTIATE_TEST_SUITE_P(GrowthCurve, EachForm, testing::Values(Form::logistic, Form::gompertz));

// What comes after the last reading, nobody knows.
TEST(GrowthCurve, EndsWithItsReadings) {
  const auto c = course_of(read({Form::logistic}, 9));
  ASSERT_TRUE(c);
  EXPECT_TRUE(std::isnan(c->gravity(-0.01)));
  EXPECT_TRUE(std::isnan(c->gravity(9.01)));
}

TEST(GrowthCurve, TooFewReadingsMakeNone) { EXPECT_FALSE(course_of(read({Form::logistic}, 4))); }

TEST(GrowthCurve, WhatHasNotFallenHasNone) {
  Series s = read({Form::logistic}, 7);
  for (double& g : s.gravity) g = 1.050;
  EXPECT_FALSE(course_of(s));
}

TEST(GrowthCurve, ACurveThatReadingsRefuteIsNone) {
  Series s = read({Form::logistic}, 9);
  for (std::size_t i = 0; i < s.size(); ++i) s.gravity[i] += (i % 2 == 0 ? 4 : -4) * own;
  EXPECT_FALSE(course_of(s));
}

}  // namespace
}  // namespace areo::trend
