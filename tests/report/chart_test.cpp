#include "areo/report/chart.hpp"

#include <gtest/gtest.h>

#include <limits>

#include "areo/core/error.hpp"

namespace areo::report {
namespace {

constexpr double nan = std::numeric_limits<double>::quiet_NaN();

Chart chart() {
  Chart c{.x_title = "shown", .y_title = "gravity", .points = {}};
  c.points.push_back({"reading", {{1, 1.050, 0.001}, {2, 1.040, 0.001}}});
  return c;
}

bool has(const std::string& all, const std::string& part) {
  return all.find(part) != std::string::npos;
}

TEST(Chart, DrawsWhatItHolds) {
  Chart c = chart();
  c.points.push_back({"odd", {{1.5, 1.06, 0.001}}, true});
  c.curves.push_back({"curve", {{1, 1.051}, {2, 1.042}}});
  c.levels.emplace_back("limit", 1.045);
  c.events.emplace_back("sugar", 1.25);
  const std::string script = script_of(c, PictureFormat::svg);
  EXPECT_TRUE(has(script, "1 1.05 0.001\n2 1.04 0.001\n"));
  EXPECT_TRUE(has(script, "1.5 1.06 0.001\n"));
  EXPECT_TRUE(has(script, "yerrorbars pt 7") && has(script, "yerrorbars pt 8"))
      << "an odd one has its own shape";
  EXPECT_TRUE(has(script, "1 1.051 0\n2 1.042 0\n") && has(script, "with lines lw 2"));
  EXPECT_TRUE(has(script, "1.045 with lines dt 2"));
  EXPECT_TRUE(has(script, "set arrow from 1.25, graph 0 to 1.25, graph 1"));
  EXPECT_TRUE(has(script, "title 'odd'") && has(script, "set label 'sugar'"));
  EXPECT_TRUE(has(script, "set xlabel 'shown'") && has(script, "set ylabel 'gravity'"));
}

TEST(Chart, MayBeginAtZero) {
  Chart c = chart();
  EXPECT_FALSE(has(script_of(c, PictureFormat::svg), "yrange"));
  c.from_zero = true;
  EXPECT_TRUE(has(script_of(c, PictureFormat::svg), "set yrange [*<0:*]"));
}

TEST(Chart, DatesStandBelowTimes) {
  Chart c = chart();
  c.time = true;
  EXPECT_TRUE(has(script_of(c, PictureFormat::svg), "%m-%d\\n%H:%M"));
  c.points[0].points[1].x = 12 * 86400;
  EXPECT_TRUE(has(script_of(c, PictureFormat::svg), "\"%m-%d\"\nset xtics 172800\n"));
  c.points[0].points[1].x = 700 * 86400.0;
  EXPECT_TRUE(has(script_of(c, PictureFormat::svg), "%Y-%m"));
}

// A text ends at its quote, and nowhere else.
TEST(Chart, TextsCannotGetOut) {
  Chart c = chart();
  c.points[0].title = "it's `id` $(id) @x \"\n!ls";
  const std::string script = script_of(c, PictureFormat::svg);
  EXPECT_TRUE(has(script, "title 'it''s `id` $(id) @x \"\uFFFD!ls'"));
  c.points[0].title = "'\nexit";
  EXPECT_TRUE(has(script_of(c, PictureFormat::svg), "title '''\uFFFDexit'"));
}

TEST(Chart, WhatIsNoNumberIsRefused) {
  Chart c = chart();
  c.points[0].points[0].y = nan;
  EXPECT_THROW((void)script_of(c, PictureFormat::svg), Error);
  c = chart();
  c.levels.emplace_back("limit", nan);
  EXPECT_THROW((void)script_of(c, PictureFormat::svg), Error);
  c = chart();
  c.events.emplace_back("sugar", nan);
  EXPECT_THROW((void)script_of(c, PictureFormat::svg), Error);
  c = chart();
  c.points.clear();
  EXPECT_THROW((void)script_of(c, PictureFormat::svg), Error);
}

TEST(Chart, FormatsGoByTheNameOfTheFile) {
  EXPECT_EQ(picture_format("a.svg"), PictureFormat::svg);
  EXPECT_EQ(picture_format("a.b.png"), PictureFormat::png);
  EXPECT_EQ(picture_format("a.pdf"), PictureFormat::pdf);
  EXPECT_THROW((void)picture_format("a.jpeg"), Error);
  EXPECT_THROW((void)picture_format("svg"), Error);
}

TEST(Draw, GivesAPictureOfEachKind) {
  EXPECT_TRUE(has(draw(script_of(chart(), PictureFormat::svg)), "<svg"));
  EXPECT_TRUE(draw(script_of(chart(), PictureFormat::png)).starts_with("\x89PNG"));
  EXPECT_TRUE(draw(script_of(chart(), PictureFormat::pdf)).starts_with("%PDF"));
  Chart c = chart();
  c.points[0].title = "it's <b>";
  EXPECT_TRUE(has(draw(script_of(c, PictureFormat::svg)), "it's &lt;b>"));
}

TEST(Draw, SaysWhenNothingIsDrawn) {
  EXPECT_THROW((void)draw("this is no script\n"), Error);
  EXPECT_THROW((void)draw(""), Error);
}

}  // namespace
}  // namespace areo::report
