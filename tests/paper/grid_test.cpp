// SPDX-License-Identifier: GPL-3.0-or-later
// A table as a grid: its decimals, its widths, and its rows for people and for programs.
#include "areo/paper/grid.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <limits>
#include <sstream>

#include "areo/core/error.hpp"

namespace areo::paper {
namespace {

using uncertainty::Value;

constexpr double nan = std::numeric_limits<double>::quiet_NaN();

// Of the entry x: 10 x with u = 0.01, and x squared with u = 0.5.
Grid two_quantities() {
  Grid g;
  g.title = "Two quantities";
  g.rows = even_axis({"x", "x", "m", 1}, 0, 10, 1);
  g.quantities = {{"tens", "ten times", "m", 3}, {"square", "square", "m²", 3, true}};
  g.cells = [](double x, double) {
    return std::vector{GridCell{Value{10 * x, 0.01}}, GridCell{Value{x * x - 50, 0.5}}};
  };
  g.json = [](double x, double) -> std::optional<std::string> {
    if (x == 3) return std::nullopt;
    return "{" + std::to_string(x) + "}";
  };
  g.doubt = "of nothing at all";
  return g;
}

std::string written(const Grid& g, Shape shape, document::SheetFormat format, bool full = false) {
  const GridLayout layout = grid_layout(g, full);
  std::ostringstream out;
  write_rows(g, layout, shape, *document::sheet_writer(format, out, grid_head(g, layout, shape)));
  return out.str();
}
std::string text_of(const Grid& g) {
  return written(g, Shape::for_people, document::SheetFormat::text);
}
void expect_has(const std::string& text, const std::string& part) {
  EXPECT_NE(text.find(part), std::string::npos) << '"' << part << "\" is not in\n" << text;
}
void expect_lacks(const std::string& text, const std::string& part) {
  EXPECT_EQ(text.find(part), std::string::npos) << '"' << part << "\" is in\n" << text;
}

TEST(EvenAxis, GoesFromOneEndToTheOther) {
  const Axis a = even_axis({"x", "x", "", 1}, 1, 2, 0.1);
  ASSERT_EQ(a.size(), 11u);
  EXPECT_EQ(a.text(a.at(0)), "1.0");
  EXPECT_EQ(a.text(a.at(10)), "2.0");
  EXPECT_EQ(even_axis({}, 1, 2, 0.3).size(), 4u) << "the last one is not beyond the end";
}

TEST(EvenAxis, RefusesWhatIsNoSide) {
  for (const auto& [from, to, step] : {std::array{1.0, 1.0, 0.1},
                                       {2.0, 1.0, 0.1},
                                       {1.0, 2.0, 0.0},
                                       {1.0, 2.0, -1.0},
                                       {1.0, 2.0, 1.5},
                                       {0.0, 1.0, 1e-8},
                                       {nan, 2.0, 0.1},
                                       {1.0, nan, 0.1},
                                       {1.0, 2.0, nan}})
    EXPECT_THROW((void)even_axis({}, from, to, step), Error) << from << ' ' << to << ' ' << step;
}

TEST(Axis, LiesBetweenItsListedEntries) {
  Axis a;
  a.listed = {1, 2, 4};
  EXPECT_EQ(a.size(), 3u);
  EXPECT_EQ(a.at(2), 4);
  EXPECT_EQ(a.at(1.5), 3);
}

TEST(DoubtText, IsRoundedUpAndNeverNothing) {
  EXPECT_EQ(doubt_text(0.121, 2), "0.13");
  EXPECT_EQ(doubt_text(0.12, 2), "0.12");
  EXPECT_EQ(doubt_text(0.0004, 2), "0.01");
  EXPECT_EQ(doubt_text(0, 1), "0.1");
}

TEST(GridLayout, HasTheDecimalsThatTheUncertaintySupports) {
  const GridLayout l = grid_layout(two_quantities(), false);
  // Two digits of a U of 0.0196 and of 0.98.
  EXPECT_EQ(l.decimals, (std::vector{3, 2}));
  EXPECT_EQ(l.widths, (std::vector<std::size_t>{7, 6})) << "100.000 and +50.00";
  const GridLayout full = grid_layout(two_quantities(), true);
  EXPECT_GT(full.decimals[0], l.decimals[0]);
}

TEST(GridLayout, HasNoMoreDecimalsThanServeAnybody) {
  Grid g = two_quantities();
  g.quantities[0].most_decimals = 0;
  EXPECT_EQ(grid_layout(g, false).decimals[0], 0);
  g.cells = [](double x, double) { return std::vector(2, GridCell{Value{x, 0}}); };
  EXPECT_EQ(grid_layout(g, false).decimals[1], 3) << "without any uncertainty: as many as allowed";
}

TEST(GridLayout, LooksWhereThereAreCells) {
  Grid g = two_quantities();
  g.cells = [](double x, double) {
    const GridCell c = x == 3 || x == 4 ? GridCell{Value{x, 0.1}} : GridCell{};
    return std::vector{c, c};
  };
  EXPECT_EQ(grid_layout(g, false).decimals, (std::vector{2, 2}));
  g.cells = [](double, double) { return std::vector<GridCell>(2); };
  EXPECT_THROW((void)grid_layout(g, false), Error);
  EXPECT_THROW(each_json(g, [](const std::string&) {}), Error);
}

TEST(GridRows, TellPeopleTheLargestUncertaintyOnce) {
  const std::string text = text_of(two_quantities());
  expect_has(text, "10.0    100.000  +50.00\n");
  expect_has(text, " 0.0      0.000  -50.00\n");
  expect_has(text, "   ±      0.020    0.98\n");
  expect_has(text, "about 95 %, at most; of nothing at all");
}

// x² bends by 1/4 between two entries, and by 0.0006 if they are closer; half of its last digit is
// 0.005.
TEST(GridRows, SayHowFarAStraightLineBetweenThemIsOff) {
  Grid g = two_quantities();
  expect_has(text_of(g), "a straight line is off by up to 0.25 in square");
  g.smooth = false;
  expect_lacks(text_of(g), "straight line");
  g = two_quantities();
  g.rows = even_axis({"x", "x", "m", 2}, 0, 2, 0.05);
  expect_lacks(text_of(g), "straight line");
}

TEST(GridRows, ShowABoundAndNothing) {
  Grid g = two_quantities();
  g.cells = [](double x, double) {
    GridCell bound{Value{0.1, 0.2}};
    bound.below = 0.41;
    return std::vector{x == 0 ? bound : GridCell{Value{10 * x, 0.01}},
                       x == 1 ? GridCell{} : GridCell{Value{1, 0.5}}};
  };
  const std::string text = text_of(g);
  expect_has(text, " 0.0      <0.41   +1.00\n");
  expect_has(text, " 1.0      10.00       -\n");
  const std::string csv = written(g, Shape::for_programs, document::SheetFormat::csv);
  expect_has(csv, "\n0.0,,,1.00,0.9800\n");
  expect_has(csv, "\n1.0,10.00,0.0196,,\n");
  expect_lacks(csv, "<");
}

TEST(GridRows, HaveACellOfTwoThingsForPeopleAndARowForPrograms) {
  Grid g = two_quantities();
  g.columns = Axis{"y", "y", "s", 0};
  g.columns->listed = {1, 2};
  g.columns->before = "at";
  const GridLayout l = grid_layout(g, false);
  const document::SheetHead people = grid_head(g, l, Shape::for_people);
  ASSERT_EQ(people.columns.size(), 3u);
  EXPECT_EQ(people.columns[2].name, "at 2 s");
  EXPECT_EQ(people.columns[1].unit, "m, m²");
  EXPECT_EQ(people.columns[1].width, 7u + 1 + 6);
  const document::SheetHead programs = grid_head(g, l, Shape::for_programs);
  std::vector<std::string> keys;
  for (const auto& c : programs.columns) keys.push_back(c.key);
  EXPECT_EQ(keys, (std::vector<std::string>{"x", "y", "tens", "tens_U", "square", "square_U"}));
  EXPECT_EQ(cells_of(g), 11u * 3);
  expect_has(written(g, Shape::for_people, document::SheetFormat::text), "100.000 +50.00");
  expect_has(written(g, Shape::for_programs, document::SheetFormat::csv),
             "10.0,2,100.000,0.01960,50.00,0.9800");
}

TEST(GridRows, TellTheUncertaintyOfEachEntryWhereThatIsAsked) {
  Grid g = two_quantities();
  g.doubt_of = DoubtOf::entry;
  const document::SheetHead head = grid_head(g, grid_layout(g, false), Shape::for_people);
  EXPECT_EQ(head.columns.back().name, "±");
  expect_has(text_of(g), "± about 95 %: of nothing at all");
}

TEST(GridJson, LeavesOutACellThatIsEmpty) {
  std::vector<std::string> all;
  each_json(two_quantities(), [&](const std::string& object) { all.push_back(object); });
  EXPECT_EQ(all.size(), 10u);
  EXPECT_EQ(all.front(), "{0.000000}");
}

}  // namespace
}  // namespace areo::paper
