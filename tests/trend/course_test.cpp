#include "areo/trend/course.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "areo/core/error.hpp"

namespace areo::trend {
namespace {

constexpr double near = 0.001;
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
  const Outlook o = outlook_of(read(f, 9), near);
  ASSERT_TRUE(o.course) << o.refused.why;
  const Course& c = *o.course;
  EXPECT_EQ(c.form, f.form);
  // Far below what is printed: 1e-8 SG, 1e-5 of a day or a day's rate, about a second.
  EXPECT_NEAR(c.start, f.start, 1e-8);
  EXPECT_NEAR(c.final, f.final, 1e-8);
  EXPECT_NEAR(c.rate, f.rate, 1e-5);
  EXPECT_NEAR(c.steepest_day(), f.middle, 1e-5);
  EXPECT_NEAR(f.gravity(c.end_day), f.final + near, 1e-8);
  EXPECT_LT(c.final_interval.lo, f.final);
  EXPECT_GT(c.final_interval.hi, f.final);
  EXPECT_LT(c.end_interval.lo, c.end_day);
  EXPECT_GT(c.end_interval.hi, c.end_day);
  EXPECT_EQ(c.widened, 1);
  // The steepest fall and the tangent, from the curve itself.
  const double h = 1e-5;
  const double slope = (c.gravity(f.middle - h) - c.gravity(f.middle + h)) / (2 * h);
  EXPECT_NEAR(c.steepest_fall(), slope, 1e-7);
  EXPECT_NEAR(c.gravity(f.middle) + c.steepest_fall() * (f.middle - c.lag_day()), f.start, 1e-6);
}

INSTANTIATE_TEST_SUITE_P(Course, EachForm, testing::Values(Form::logistic, Form::gompertz));

TEST(Course, TooFewReadingsSayHowManyMore) {
  const Outlook o = outlook_of(read({Form::logistic}, 3), near);
  EXPECT_FALSE(o.course);
  EXPECT_EQ(o.refused.more, 2);
  EXPECT_NE(o.refused.why.find("4 readings are too few"), std::string::npos) << o.refused.why;
}

TEST(Course, WhatHasNotFallenHasNone) {
  Series s = read({Form::logistic}, 7);
  for (double& g : s.gravity) g = 1.050;
  EXPECT_FALSE(outlook_of(s, near).course);
}

// Before the middle any end goes with the readings; a few more tell.
TEST(Course, AnOpenEndIsRefusedAndMoreReadingsHelp) {
  Truth f{Form::logistic};
  f.middle = 6;
  Series s = read(f, 5);
  s.errors = numeric::SharedErrors::independent(std::vector<double>(s.size(), 0.001));
  const Outlook o = outlook_of(s, near);
  ASSERT_FALSE(o.course);
  ASSERT_GT(o.refused.more, 0);
  Series longer = read(f, 5 + o.refused.more + 2);
  longer.errors = numeric::SharedErrors::independent(std::vector<double>(longer.size(), 0.001));
  EXPECT_TRUE(outlook_of(longer, near).course);
}

// The variances that a curve has where it was read, over those of the readings, add up to the
// number of its parameters; more where the readings scatter more than they say.
TEST(Course, IsAsSureAsItsReadings) {
  for (const double scatter : {0.0, 4.0}) {
    Series s = read({Form::logistic}, 9);
    for (std::size_t i = 0; i < s.size(); ++i)
      s.gravity[i] += (i % 2 == 0 ? 1 : -1) * scatter * own;
    const Outlook o = outlook_of(s, near);
    ASSERT_TRUE(o.course) << o.refused.why;
    double sum = 0;
    for (const double day : s.days) sum += std::pow(o.course->uncertainty(day) / own, 2);
    const double widened = o.course->widened;
    EXPECT_EQ(widened > 1, scatter > 1);
    EXPECT_NEAR(sum / (widened * widened), 4, 1e-3);  // slopes are central differences
  }
}

// What a fit leaves of the variances of independent points is their number less its parameters.
TEST(Course, ResidualsAreStudentized) {
  Series s = read({Form::logistic}, 9);
  for (std::size_t i = 0; i < s.size(); ++i) s.gravity[i] += i % 2 == 0 ? own : -own;
  const Outlook o = outlook_of(s, near);
  ASSERT_TRUE(o.course) << o.refused.why;
  double left = 0;
  for (std::size_t i = 0; i < s.size(); ++i) {
    const double residual = s.gravity[i] - o.course->gravity(s.days[i]);
    const double u = residual / o.studentized[i];
    left += u * u / (own * own);
  }
  EXPECT_NEAR(left, static_cast<double>(s.size()) - 4, 1e-4);  // derivatives by differences
}

TEST(Course, AnOddReadingStandsOut) {
  Series s = read({Form::logistic}, 9);
  s.gravity[4] += 0.010;
  const Outlook o = outlook_of(s, near);
  ASSERT_TRUE(o.course) << o.refused.why;
  EXPECT_GT(o.course->widened, 1);
  for (std::size_t i = 0; i < s.size(); ++i)
    EXPECT_LE(std::abs(o.studentized[i]), o.studentized[4]);
  EXPECT_GT(o.studentized[4], 3);
}

TEST(Course, RefusesWhatIsNoQuestion) {
  const Series s = read({Form::logistic}, 9);
  const double nan = std::numeric_limits<double>::quiet_NaN();
  for (const double bad : {0.0, -0.001, nan}) EXPECT_THROW((void)outlook_of(s, bad), Error);
  for (const double bad : {0.0, 1.0, nan}) EXPECT_THROW((void)outlook_of(s, near, bad), Error);
}

}  // namespace
}  // namespace areo::trend
