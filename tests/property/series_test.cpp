// SPDX-License-Identifier: GPL-3.0-or-later
// What is concluded of a series must be right as often as docs/explanation/series.md says: of
// ferments that no curve of areo describes, asked after every reading. AREO_TEST_CASES=100000: for
// minutes; AREO_PRINT=FILE writes the table that the document holds.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <string_view>
#include <vector>

#include "areo/trend/state.hpp"
#include "ferments.hpp"
#include "figures.hpp"
#include "verdicts.hpp"

namespace areo::property {
namespace {

using trend::Phase;

struct Row {
  std::string name;
  Conditions conditions;
};
// The first six are what areo is for; of the others its statements on uncertainty are not true.
constexpr std::size_t stated = 6;
const std::vector<Row>& rows() {
  static const std::vector<Row> all{{"no slips, all degassed", {}},
                                    {"no slips, a third fizzy", {.fizzy = true}},
                                    {"2 % slips, all degassed", {.slips = 0.02}},
                                    {"2 % slips, a third fizzy", {.slips = 0.02, .fizzy = true}},
                                    {"5 % slips, all degassed", {.slips = 0.05}},
                                    {"5 % slips, a third fizzy", {.slips = 0.05, .fizzy = true}},
                                    {"half the error", {.times_error = 0.5}},
                                    {"1.5 times the error", {.times_error = 1.5}},
                                    {"twice the error", {.times_error = 2}},
                                    {"bubbles nobody marked", {.fizzy_unmarked = true}}};
  return all;
}

struct Counts {
  std::vector<Count> by_row = std::vector<Count>(rows().size());
  // Of the first six rows.
  Count all, weak, strong;
  std::vector<Count> by_shape = std::vector<Count>(shape_names.size());
};

Counts study(World& world, int of_each) {
  Counts counts;
  for (std::size_t shape = 0; shape < shape_names.size(); ++shape)
    for (std::size_t row = 0; row < rows().size(); ++row)
      for (int i = 0; i < of_each; ++i) {
        const Notes notes = any_notes(world, static_cast<Shape>(shape), rows()[row].conditions);
        const Count c = judged(notes);
        counts.by_row[row].add(c);
        if (row >= stated) continue;
        counts.all.add(c);
        counts.by_shape[shape].add(c);
        (notes.original < 1.030 ? counts.weak : counts.strong).add(c);
      }
  return counts;
}

std::string cells(const std::array<std::string, 11>& c) {
  return fmt::format("{:<24}{:>8}{:>6}{:>9}{:>8}{:>8}{:>6}{:>10}{:>6}{:>9}{:>7}\n", c[0], c[1],
                     c[2], c[3], c[4], c[5], c[6], c[7], c[8], c[9], c[10]);
}

std::string line(std::string_view name, const Count& c) {
  return cells({std::string{name}, percent(c.falling, c.verdicts), percent(c.none_falls, c.falling),
                percent(c.stopped, c.falling), percent(c.falling - c.outside, c.falling),
                percent(c.steady, c.verdicts), percent(c.not_harmless, c.steady),
                percent(c.exceeded, c.bounds), percent(c.wrongly_odd, c.series),
                percent(c.certain_then, c.knowable), percent(c.found, c.slips)});
}

// As docs/explanation/series.txt has it.
std::string table(const Counts& counts) {
  std::string t = cells({"", "", "", "had", "fall", "", "", "bound", "odd", "certain", "slips"}) +
                  cells({"in percent", "falling", "wrong", "stopped", "covered", "steady", "wrong",
                         "exceeded", "wrong", "in time", "found"});
  for (std::size_t i = 0; i < rows().size(); ++i)
    t += (i == stated ? "\n" : "") + line(rows()[i].name, counts.by_row[i]);
  t += "\nthe first six rows\n" + line("original below 1.030", counts.weak) +
       line("original from 1.030", counts.strong);
  for (std::size_t i = 0; i < shape_names.size(); ++i)
    t += line(shape_names.at(i), counts.by_shape[i]);
  const Count& c = counts.all;
  t += line("together", c);
  return t +
         fmt::format(
             "\n{} series, {} verdicts: falling {}, fell {}, no fall seen {}, not begun {},\n"
             "steady {}, nothing {}. Not begun though it fell by more than 0.003: {} of these.\n"
             "Called falling in time: {}. Of {} that came to rest {} were called steady, on\n"
             "average {:.0f} days after a fall had become harmless.\n",
             c.series, c.verdicts, percent(c.falling, c.verdicts), percent(c.fell, c.verdicts),
             percent(c.no_fall, c.verdicts), percent(c.not_begun, c.verdicts),
             percent(c.steady, c.verdicts), percent(c.unclear, c.verdicts),
             percent(c.had_begun, c.not_begun), percent(c.falling_then, c.knowable), c.rests,
             percent(c.rests_called, c.rests), 1.0 * c.rest_days / std::max(c.rests_called, 1));
}

void expect_of_stated(const Counts& counts) {
  for (std::size_t i = 0; i < stated; ++i) {
    SCOPED_TRACE(rows()[i].name);
    const Count& c = counts.by_row[i];
    const bool clean = rows()[i].conditions.slips == 0;
    expect_at_most(2, c.none_falls, c.falling, "falling without a fall");
    expect_at_most(clean ? 6 : 8, c.outside, c.falling, "falls outside their interval");
    if (!clean) continue;
    expect_at_most(5, c.exceeded, c.bounds, "bounds of the pace exceeded");
    expect_at_most(5, c.wrongly_odd, c.series, "series with a reading called odd");
  }
  const Count& all = counts.all;
  expect_at_most(1, all.none_falls, all.falling, "falling without a fall");
  expect_at_most(1, all.not_harmless, all.steady, "steady, and not harmless");
  expect_at_most(20, all.slips - all.found, all.slips, "slips that pass");
  expect_at_most(12, all.stopped, all.falling, "falling, and it had stopped");
  Count clean = counts.by_row[0];
  clean.add(counts.by_row[1]);
  constexpr double late = 10;
  expect_at_most(late + 3 * std::sqrt(late * (100 - late) / clean.knowable),
                 clean.knowable - clean.certain_then, clean.knowable, "falls not known in time");
}

void expect_of_shapes(const Counts& counts) {
  for (std::size_t i = 0; i < shape_names.size(); ++i) {
    SCOPED_TRACE(shape_names.at(i));
    const Count& c = counts.by_shape[i];
    if (static_cast<Shape>(i) == Shape::none) {
      expect_at_most(2, c.falling, c.verdicts, "falling where nothing ferments");
      continue;
    }
    expect_at_most(4, c.none_falls, c.falling, "falling without a fall");
    expect_at_most(8, c.outside, c.falling, "falls outside their interval");
  }
}

// 4 000 cases are 3 600 series. The limits are the goals, or lower where a broken procedure still
// kept the goal; with sixty other seeds every figure stayed away from its limit by more than four
// times the spread that the seeds showed. Only what is known in time gets three spreads of its own.
TEST(SeriesStudy, VerdictsAreRightAsOftenAsStated) {
  Draws draws;
  SCOPED_TRACE(draws.trace());
  World world{draws};
  constexpr int usual = 4000;
  const int cases_here = std::max(cases_wanted(), usual);
  const Counts counts = study(world, cases_here / 100);
  expect_of_stated(counts);
  expect_of_shapes(counts);
  // Steady is right also where the readings are worse than is stated.
  Count worse;
  for (std::size_t i = stated; i < rows().size(); ++i) worse.add(counts.by_row[i]);
  expect_at_most(2, worse.not_harmless, worse.steady, "steady, and not harmless");
  expect_written(table(counts), "series.txt", cases_here == usual);
}

// Nothing ferments, and one of the first readings is another bottle's: also the first, from which
// everything fell, or the last.
TEST(SeriesStudy, OneSlipMakesNoFall) {
  Draws draws;
  SCOPED_TRACE(draws.trace());
  World world{draws};
  int falls = 0;
  constexpr int series = 2000;
  constexpr std::size_t readings = 8;
  for (int i = 0; i < series; ++i) {
    Notes notes = any_notes(world, Shape::none, {});
    const auto place = static_cast<std::size_t>(world.uniform(0, readings));
    notes.readings.gravity[place] += any_slip(world);
    bool fell = false;
    for (std::size_t n = 3; n <= readings; ++n) {
      const Phase phase = trend::state_of(notes.first(n)).phase;
      fell |= phase != Phase::not_begun && phase != Phase::unclear;
    }
    falls += fell ? 1 : 0;
  }
  // A fall of none by chance in 2 of 100 in so many looks, and what no rule can tell from one.
  constexpr double most_falls = 8;
  expect_at_most(most_falls, falls, series, "series that fall on some day");
}

}  // namespace
}  // namespace areo::property
