// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/document/plot.hpp"

#include <gtest/gtest.h>

#include <limits>

#include "areo/core/error.hpp"

namespace areo::document {
namespace {

using Lines = std::vector<std::string>;

Plot plot(std::vector<PlotPoint> points) {
  Plot p{std::move(points), {}, {}, {}};
  p.x_label = [](double x) { return std::to_string(static_cast<int>(x)); };
  p.y_label = p.x_label;
  return p;
}

TEST(TextPlot, PutsReadingsAndTheirUncertaintyInPlace) {
  EXPECT_EQ(text_plot(plot({{0, 10, 0}, {10, 2, 2}}), 11, 6), (Lines{
                                                                  "10 +o",
                                                                  "",
                                                                  " 6 +",
                                                                  "              |",
                                                                  "              o",
                                                                  " 0 +          |",
                                                                  "    0    5   10",
                                                              }));
}

TEST(TextPlot, TheCurveRunsBehindTheReadings) {
  Plot p = plot({{0, 0, 0}, {10, 10, 0}});
  p.curve = [](double x) { return x; };
  EXPECT_EQ(text_plot(p, 11, 3), (Lines{
                                     "10 +        ..o",
                                     " 5 +   .....",
                                     " 0 +o..",
                                     "    0    5   10",
                                 }));
}

TEST(TextPlot, AReadingAloneLiesInTheMiddle) {
  const Lines lines = text_plot(plot({{100, 100, 0}}), 11, 3);
  EXPECT_EQ(lines[1], "100 +     o");
}

TEST(TextPlot, ACurveThatIsNotThereLeavesAGap) {
  Plot p = plot({{0, 0, 0}, {10, 10, 0}});
  p.curve = [](double x) { return x < 5 ? std::numeric_limits<double>::quiet_NaN() : x; };
  EXPECT_EQ(text_plot(p, 11, 3)[2], " 0 +o");
}

TEST(TextPlot, RefusesWhatCannotBeDrawn) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  EXPECT_THROW((void)text_plot(plot({})), Error);
  for (const PlotPoint& bad : {PlotPoint{nan, 0, 0}, {0, nan, 0}, {0, 0, nan}, {0, 0, -1}})
    EXPECT_THROW((void)text_plot(plot({bad})), Error);
  EXPECT_THROW((void)text_plot(plot({{0, 0, 0}}), 9, 3), Error);
  EXPECT_THROW((void)text_plot(plot({{0, 0, 0}}), 10, 2), Error);
}

}  // namespace
}  // namespace areo::document
