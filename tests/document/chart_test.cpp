// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/document/chart.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "areo/core/error.hpp"
#include "drawing.hpp"

namespace areo::document {
namespace {

constexpr double nan = std::numeric_limits<double>::quiet_NaN();
constexpr double infinite = std::numeric_limits<double>::infinity();
constexpr double day = 86400, monday = 20514 * day;  // 2026-03-02, 00:00
constexpr double tenth = 0.101;                      // of two coordinates, each rounded to tenths

Chart chart() {
  Chart c{.x_title = "shown", .y_title = "gravity", .x_decimals = 0, .points = {}};
  c.points.push_back({"reading", {{0, 1.050, 0.001}, {100, 1.040, 0.001}}});
  return c;
}

// A gravity each day.
Chart days(double first, double last, double step = day) {
  Chart c{.x_title = {}, .y_title = "gravity", .time = true, .points = {}};
  Chart::Points all{"reading ± U", {}};
  for (double at = first; at <= last; at += step)
    all.points.push_back({at, 1.01 + 0.04 * std::exp((first - at) / (5 * day)), 0.001});
  c.points.push_back(all);
  return c;
}

// Faults, with the chart's words for a message.
void expect_tidy(const Chart& c) {
  const Drawn d = drawn(svg_of(c));
  EXPECT_FALSE(d.texts.empty());
  for (const std::string& fault : faults_of(d)) ADD_FAILURE() << fault;
}

// y: from 1.039 to 1.051 in six steps at the most is 0.002 each, so 1.038 to 1.052. x: 3 % more on
// both sides.
TEST(Chart, PointsLieWhereTheAxesSay) {
  const Drawn d = drawn(svg_of(chart()));
  ASSERT_EQ(d.dots.size(), 2U);
  EXPECT_NEAR(d.dots[0].x, d.x_of(0, -3, 103), tenth);
  EXPECT_NEAR(d.dots[0].y, d.y_of(1.050, 1.038, 1.052), tenth);
  EXPECT_NEAR(d.dots[1].x, d.x_of(100, -3, 103), tenth);
  EXPECT_NEAR(d.dots[1].y, d.y_of(1.040, 1.038, 1.052), tenth);
  EXPECT_NEAR(d.at("1.038").bottom, d.bottom + 7.5, tenth) << "half of its height below its tick";
  EXPECT_NEAR(d.at("1.052").bottom, d.top + 7.5, tenth);
  EXPECT_NEAR((d.at("20").left + d.at("20").right) / 2, d.x_of(20, -3, 103), tenth);
}

// By hand: two digits and three more at 0.64 of 13 and a point at 0.36 are 38.0 wide, with 13
// beside them 51.0; the plot ends at 414 and is 200 high below 28.
TEST(Chart, CoordinatesAreThoseOfAHandThatReckons) {
  const Drawn d = drawn(svg_of(chart()));
  EXPECT_NEAR(d.left, 51.0, tenth);
  EXPECT_NEAR(d.top, 28, tenth);
  EXPECT_NEAR(d.bottom, 228, tenth);
  EXPECT_NEAR(d.right, 414, tenth);
  EXPECT_NEAR(d.dots[0].x, 61.2, tenth);  // 50.96 + 3 / 106 * 363.04
  EXPECT_NEAR(d.dots[0].y, 56.6, tenth);  // 228 - 12 / 14 * 200
}

TEST(Chart, BarsEndAtTheUncertainty) {
  Chart c = chart();
  c.points[0].points.push_back({50, 1.045, 0});
  const Drawn d = drawn(svg_of(c));
  ASSERT_EQ(d.bars.size(), 2U) << "what has no uncertainty has no bar";
  EXPECT_EQ(d.dots.size(), 3U);
  EXPECT_NEAR(d.bars[0].x, d.dots[0].x, tenth);
  EXPECT_NEAR(d.bars[0].top, d.y_of(1.051, 1.038, 1.052), tenth);
  EXPECT_NEAR(d.bars[0].bottom, d.y_of(1.049, 1.038, 1.052), tenth);
}

TEST(Chart, DrawsWhatItHolds) {
  Chart c = chart();
  c.points.push_back({"odd", {{50, 1.048, 0.001}}, true});
  c.curves.push_back({"curve", {{0, 1.051}, {100, 1.042}}});
  c.levels.emplace_back("limit", 1.045);
  c.events.emplace_back("sugar", 25);
  const std::string svg = svg_of(c);
  const Drawn d = drawn(svg);
  EXPECT_EQ(d.dots.size(), 2U);
  ASSERT_EQ(d.triangles.size(), 1U) << "an odd one has its own shape";
  EXPECT_NEAR(d.triangles[0].y, d.y_of(1.048, 1.038, 1.052), tenth);
  ASSERT_EQ(d.levels.size(), 1U);
  EXPECT_NEAR(d.levels[0], d.y_of(1.045, 1.038, 1.052), tenth);
  ASSERT_EQ(d.events.size(), 1U);
  EXPECT_NEAR(d.events[0].x, d.x_of(25, -3, 103), tenth);
  EXPECT_NEAR(d.events[0].bottom, d.bottom, tenth);
  EXPECT_NE(svg.find("class=\"curve\""), std::string::npos);
  for (const char* text : {"gravity", "shown", "reading", "odd", "curve", "limit", "sugar"})
    EXPECT_TRUE(d.has(text)) << text;
  EXPECT_EQ(d.title, "gravity against shown");
  c.title = "Two readings & a curve";
  EXPECT_EQ(drawn(svg_of(c)).title, c.title);
  EXPECT_EQ(svg_of(c), svg_of(c));
  expect_tidy(c);
}

TEST(Chart, MayBeginAtZero) {
  Chart c = chart();
  EXPECT_FALSE(drawn(svg_of(c)).has("0.000"));
  c.from_zero = true;
  EXPECT_TRUE(drawn(svg_of(c)).has("0.000"));
  c.points[0].points[0].y = -0.5;
  EXPECT_TRUE(drawn(svg_of(c)).has("-0.500")) << "or below it";
}

TEST(Chart, LabelsHaveTheDecimalsThatTellThemApart) {
  Chart c = chart();
  c.y_decimals = 1;
  EXPECT_TRUE(drawn(svg_of(c)).has("1.044"));
  c.y_decimals = 4;
  EXPECT_TRUE(drawn(svg_of(c)).has("1.0440"));
  c.points[0].points = {{5, 1e9, 1e8}, {6, -2e9, 1e8}};
  EXPECT_TRUE(drawn(svg_of(c)).has("-2e+09"));
  expect_tidy(c);
}

TEST(Chart, HoursHaveTheirDateBelow) {
  const Chart c = days(monday + day / 2, monday + 2 * day);  // two points, at noon
  const Drawn d = drawn(svg_of(c));
  EXPECT_TRUE(d.has("18:00") && d.has("03-02") && d.has("03-03"));
  EXPECT_GT(d.at("03-03").top, d.at("18:00").bottom);
  const double margin = 0.03 * day, lo = monday + day / 2 - margin;
  const double midnight = d.x_of(monday + day, lo, lo + day + 2 * margin);
  EXPECT_NEAR((d.at("03-03").left + d.at("03-03").right) / 2, midnight, 2 * tenth);
  expect_tidy(c);
}

TEST(Chart, DaysHaveTheirYearBelow) {
  const Chart c = days(monday, monday + 12 * day);
  const Drawn d = drawn(svg_of(c));
  for (const char* date : {"03-02", "03-04", "03-14"}) EXPECT_TRUE(d.has(date)) << date;
  EXPECT_FALSE(d.has("03-03"));
  EXPECT_GT(d.at("2026").top, d.at("03-02").bottom);
  expect_tidy(c);
  const Chart turn = days(monday - 65 * day, monday - 58 * day);  // 2025-12-27 .. 2026-01-03
  EXPECT_TRUE(drawn(svg_of(turn)).has("2025") && drawn(svg_of(turn)).has("2026"));
  expect_tidy(turn);
}

TEST(Chart, WeeksBeginOnMondaysAndMonthsOnTheirFirst) {
  const Drawn weeks = drawn(svg_of(days(monday - 20 * day, monday + 20 * day)));
  for (const char* date : {"02-16", "02-23", "03-02"}) EXPECT_TRUE(weeks.has(date)) << date;
  const Drawn months = drawn(svg_of(days(monday, monday + 120 * day)));
  EXPECT_TRUE(months.has("2026-04") && months.has("2026-05"));
  const Drawn years = drawn(svg_of(days(monday, monday + 700 * day, 70 * day)));
  EXPECT_TRUE(years.has("2026-07") && years.has("2027-01"));
  const Drawn decades = drawn(svg_of(days(monday, monday + 9000 * day, 700 * day)));
  EXPECT_TRUE(decades.has("2030") && decades.has("2045"));
}

TEST(Chart, AnyTimeHasTicks) {
  for (const double span :
       {0.0, 1.0, 100.0, 3000.0, 2e4, 1e5, 4e5, 1e6, 4e6, 8e6, 1e7, 3e7, 1e8, 1e9, 2e10, 2e11}) {
    SCOPED_TRACE(span);
    Chart c = days(monday, monday);
    c.points[0].points.push_back({monday + span, 1.02, 0.001});
    const Drawn d = drawn(svg_of(c));
    std::size_t below = 0;
    for (const DrawnText& t : d.texts) below += t.top > d.bottom && t.bottom < d.legend_top ? 1 : 0;
    EXPECT_GE(below, 2U);
    expect_tidy(c);
  }
  EXPECT_THROW((void)svg_of(days(-1e12, -1e12)), Error);
  EXPECT_THROW((void)svg_of(days(1e12, 1e12)), Error);
}

TEST(Chart, EventsStaggerAndStayReadable) {
  Chart c = days(monday, monday + 12 * day);
  c.events = {{"sugar, 100g", monday + 3 * day}, {"water, 0.5L", monday + 3 * day + 3600}};
  Drawn d = drawn(svg_of(c));
  EXPECT_GT(d.at("water, 0.5L").top, d.at("sugar, 100g").bottom - 1) << "one below the other";
  expect_tidy(c);
  c.events = {{"sugar, 100g", monday + 12 * day}, {"water, 0.5L", monday + 12 * day}};
  expect_tidy(c);
  c.events = {{"first sugar, 100g", monday}, {"sugar, 100g of it", monday + 12 * day}};
  EXPECT_TRUE(drawn(svg_of(c)).has("first sugar, 100g"));
  expect_tidy(c);
}

// What has no room above the plot stands below it, with a number for each.
TEST(Chart, ManyEventsAreNumbered) {
  Chart c = days(monday, monday + 12 * day);
  for (int i = 0; i < 40; ++i)
    c.events.emplace_back("sugar, 100g, in portion " + std::to_string(i),
                          monday + (i % 20) * 0.6 * day);
  const Drawn d = drawn(svg_of(c));
  EXPECT_EQ(d.events.size(), 40U);
  EXPECT_TRUE(d.has("1: sugar, 100g, in portion 0") && d.has("2: sugar, 100g, in portion 20"));
  expect_tidy(c);
}

TEST(Chart, LongWordsWrapOrAreShortened) {
  Chart c = chart();
  const std::string words = "a long story of what was poured into the jar ";
  std::string story;
  for (int i = 0; i < 8; ++i) story += words;
  c.x_title = c.y_title = c.points[0].title = story;
  c.events.emplace_back(story, 50);
  c.levels.emplace_back(std::string(300, 'W'), 1.045);
  const std::string svg = svg_of(c);
  EXPECT_NE(svg.find("…"), std::string::npos);
  for (const std::string& fault : faults_of(drawn(svg)))
    if (fault.find(" touches ") == std::string::npos)  // the same words stand in four places
      ADD_FAILURE() << fault;
  expect_tidy(c);
}

TEST(Chart, AnyPointsFit) {
  const std::vector<std::vector<PlotPoint>> hard{
      {{1, 1.048, 0.001}},
      {{1, 0, 0}},
      {{1, 1.048, 1000}},
      {{0, 1, 1e-12}},
      {{-1e9, -5, 0.1}, {1e9, 5, 0.1}},
      {{1e-9, 1e-9, 0}, {2e-9, 3e-9, 0}},
      {{1e99, 1e99, 0}, {-1e99, -1e99, 0}},
      {{123456.789, 99.99, 0.01}, {123456.790, 99.98, 0.01}}};
  for (const auto& points : hard) {
    SCOPED_TRACE(points[0].y);
    Chart c = chart();
    c.points[0].points = points;
    EXPECT_EQ(drawn(svg_of(c)).dots.size(), points.size());
    expect_tidy(c);
  }
  const Chart many = days(monday, monday + 20 * day, day / 10);
  EXPECT_EQ(drawn(svg_of(many)).dots.size(), 201U);
  expect_tidy(many);
}

TEST(Chart, TextsCannotGetOut) {
  Chart c = chart();
  c.points[0].title = "</text><script>&\"'\x01\xff\uFFFF";
  const std::string svg = svg_of(c);
  EXPECT_EQ(svg.find("<script"), std::string::npos);
  EXPECT_NE(svg.find("&lt;/text&gt;&lt;script&gt;&amp;&quot;&#39;\uFFFD\uFFFD\uFFFD</text>"),
            std::string::npos)
      << svg;
  (void)drawn(svg);
}

TEST(Chart, WhatIsNoNumberIsRefused) {
  for (const double bad : {nan, infinite, -infinite}) {
    Chart c = chart();
    c.points[0].points[0].x = bad;
    EXPECT_THROW((void)svg_of(c), Error);
    c = chart();
    c.points[0].points[0].y = bad;
    EXPECT_THROW((void)svg_of(c), Error);
    c = chart();
    c.points[0].points[0].expanded = bad;
    EXPECT_THROW((void)svg_of(c), Error);
    c = chart();
    c.curves.push_back({"curve", {{bad, 1}}});
    EXPECT_THROW((void)svg_of(c), Error);
    c = chart();
    c.levels.emplace_back("limit", bad);
    EXPECT_THROW((void)svg_of(c), Error);
    c = chart();
    c.events.emplace_back("sugar", bad);
    EXPECT_THROW((void)svg_of(c), Error);
  }
  Chart c = chart();
  c.points.clear();
  EXPECT_THROW((void)svg_of(c), Error);
  c = chart();
  c.points[0].points.clear();
  EXPECT_THROW((void)svg_of(c), Error);
  c = chart();
  c.curves.push_back({"curve", {}});
  EXPECT_THROW((void)svg_of(c), Error);
}

TEST(Chart, FormatsGoByTheNameOfTheFile) {
  EXPECT_EQ(picture_format("a.svg"), PictureFormat::svg);
  EXPECT_EQ(picture_format("a.pdf"), PictureFormat::pdf);
  for (const char* other : {"a.jpeg", "a.png", "a.b.PNG"})
    EXPECT_THROW((void)picture_format(other), Error) << other;
  EXPECT_THROW((void)picture_format("svg"), Error);
}

}  // namespace
}  // namespace areo::document
