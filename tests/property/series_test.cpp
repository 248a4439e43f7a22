// What is concluded of a series must be right as often as docs/explanation/series.md says: of
// ferments that no curve of areo describes, asked after every reading. AREO_TEST_CASES=100000: for
// minutes; AREO_PRINT=FILE writes the table that the document holds.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>
#include <fstream>
#include <iterator>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "areo/measurement/ferments.hpp"
#include "areo/trend/state.hpp"
#include "ferments.hpp"

namespace areo::property {
namespace {

using trend::Phase;
using trend::State;

struct Count {
  int series = 0, verdicts = 0;
  int falling = 0, none_falls = 0, stopped = 0, outside = 0;
  int steady = 0, not_harmless = 0;
  int bounds = 0, exceeded = 0;
  int fell = 0, no_fall = 0, not_begun = 0, unclear = 0;
  int wrongly_odd = 0;                                   // series
  int knowable = 0, certain_then = 0, falling_then = 0;  // series
  int slips = 0, found = 0;
  int rests = 0, rests_called = 0, rest_days = 0;  // series; days in all

  void add(const Count& c) {
    for (const auto member :
         {&Count::series,    &Count::verdicts,     &Count::falling,      &Count::none_falls,
          &Count::stopped,   &Count::outside,      &Count::steady,       &Count::not_harmless,
          &Count::bounds,    &Count::exceeded,     &Count::fell,         &Count::no_fall,
          &Count::not_begun, &Count::unclear,      &Count::wrongly_odd,  &Count::knowable,
          &Count::slips,     &Count::certain_then, &Count::falling_then, &Count::found,
          &Count::rests,     &Count::rests_called, &Count::rest_days})
      this->*member += c.*member;
  }
};

// The slowest pace, by the day, of which a week is not harmless.
double harmful_pace(const Notes& notes) {
  constexpr double week = 7, fall = 0.001;
  const auto made = measurement::made_by_fall(notes.original, fall);
  return fall / week *
         std::min(trend::harmless_percent_vol / made.percent_vol, trend::harmless_bar / made.bar);
}

// Comparisons are so that a number that is none counts as wrong.
void judge_fall(const Notes& notes, const trend::Fall& fall, Count& c) {
  const double from = notes.readings.days[fall.first], to = notes.readings.days[fall.last];
  const double truth = notes.fall(from, to);
  constexpr double no_fall = 0.0001;
  const bool falls = truth >= no_fall;
  c.none_falls += falls ? 0 : 1;
  c.outside += std::abs(truth - fall.value.estimate) <= fall.expanded() ? 0 : 1;
  c.stopped += falls && notes.pace(to) < 0.05 * truth / (to - from) ? 1 : 0;
}

void judge_bound(const Notes& notes, const trend::Pace& hidden, Count& c) {
  const double from = notes.readings.days[hidden.first];
  ++c.bounds;
  c.exceeded += notes.fall(from, from + hidden.days) / hidden.days <= hidden.per_day ? 0 : 1;
}

void judge(const Notes& notes, const State& state, double today, Count& c) {
  ++c.verdicts;
  c.falling += state.phase == Phase::falling ? 1 : 0;
  c.fell += state.phase == Phase::fell ? 1 : 0;
  c.no_fall += state.phase == Phase::no_fall ? 1 : 0;
  c.not_begun += state.phase == Phase::not_begun ? 1 : 0;
  c.unclear += state.phase == Phase::unclear ? 1 : 0;
  if (state.fall) judge_fall(notes, *state.fall, c);
  if (state.hidden) judge_bound(notes, *state.hidden, c);
  if (state.phase != Phase::steady) return;
  ++c.steady;
  c.not_harmless += notes.pace(today) <= harmful_pace(notes) ? 0 : 1;
}

// Who knew the course and only asked whether there is any fall at all would be 95 % sure of it with
// a chance of 95 %: after so many of the readings.
std::optional<std::size_t> knowable(const Notes& notes) {
  double n = 0, sum = 0, squares = 0;
  for (std::size_t i = 0; i < notes.readings.size(); ++i) {
    if (notes.readings.is_lifted(i)) continue;
    const double fallen = notes.fall(0, notes.readings.days[i]) / notes.real_u;
    n += 1;
    sum += fallen;
    squares += fallen * fallen;
    constexpr double twice_95 = 2 * 1.645;
    if (n > 1 && squares - sum * sum / n > twice_95 * twice_95) return i + 1;
  }
  return std::nullopt;
}

// The first reading from which on the pace stays harmless.
std::size_t comes_to_rest(const Notes& notes) {
  std::size_t first = notes.readings.size();
  const double harmful = harmful_pace(notes);
  while (first > 0 && notes.pace(notes.readings.days[first - 1]) < harmful) --first;
  return first;
}

// Every day's verdict of one ferment.
Count judged(const Notes& notes) {
  Count c;
  c.series = 1;
  const std::size_t all = notes.readings.size();
  const std::size_t rest = comes_to_rest(notes);
  c.rests = rest > 0 && rest < all ? 1 : 0;
  std::optional<std::size_t> certain, falling;
  bool wrongly_odd = false;
  std::vector<trend::OddPoint> odd;
  for (std::size_t n = 2; n <= all; ++n) {
    const State state = trend::state_of(notes.first(n));
    judge(notes, state, notes.readings.days[n - 1], c);
    if (!certain && state.phase != Phase::unclear && state.phase != Phase::not_begun) certain = n;
    if (!falling && state.phase == Phase::falling) falling = n;
    if (state.phase == Phase::steady && c.rests == 1 && n > rest && c.rests_called == 0) {
      c.rests_called = 1;
      c.rest_days =
          static_cast<int>(std::lround(notes.readings.days[n - 1] - notes.readings.days[rest]));
    }
    odd = state.odd;
    for (const trend::OddPoint& o : odd) wrongly_odd |= notes.slipped[o.point] == 0;
  }
  c.wrongly_odd = wrongly_odd ? 1 : 0;
  if (const auto then = knowable(notes)) {
    c.knowable = 1;
    c.certain_then = certain && *certain <= *then + 1 ? 1 : 0;
    c.falling_then = falling && *falling <= *then + 1 ? 1 : 0;
  }
  constexpr double visible = 0.004;
  for (std::size_t i = 0; i < all; ++i) c.slips += std::abs(notes.slipped[i]) >= visible ? 1 : 0;
  for (const trend::OddPoint& o : odd)
    c.found += std::abs(notes.slipped[o.point]) >= visible ? 1 : 0;
  return c;
}

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
                                    {"half the error stated", {.times_error = 0.5}},
                                    {"1.5 times the error", {.times_error = 1.5}},
                                    {"2 times the error", {.times_error = 2}},
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

std::string percent(int part, int of) {
  return of == 0 ? "-" : fmt::format("{:.1f}", 100.0 * part / of);
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
             "steady {}, nothing {}. Falling in time: {}. Of {} that came to rest {} were called\n"
             "steady, after {:.0f} days\n",
             c.series, c.verdicts, percent(c.falling, c.verdicts), percent(c.fell, c.verdicts),
             percent(c.no_fall, c.verdicts), percent(c.not_begun, c.verdicts),
             percent(c.steady, c.verdicts), percent(c.unclear, c.verdicts),
             percent(c.falling_then, c.knowable), c.rests, percent(c.rests_called, c.rests),
             1.0 * c.rest_days / std::max(c.rests_called, 1));
}

// So many percent of them, and of no fewer than a hundred.
void expect_at_most(double most_percent, int part, int of, std::string_view what) {
  EXPECT_GE(of, 100) << what;
  EXPECT_LE(100.0 * part, most_percent * of) << what << ": " << part << " of " << of;
}

// 4 000 cases are 3 600 series. The figures lie so far from these limits that of a hundred other
// seeds none came nearer than SEEDS; only the last, of few series, gets three times its own spread.
TEST(SeriesStudy, VerdictsAreRightAsOftenAsStated) {
  Draws draws;
  SCOPED_TRACE(draws.trace());
  World world{draws};
  constexpr int usual = 4000;
  const int cases_here = std::max(cases_wanted(), usual);
  const Counts counts = study(world, cases_here / 100);
  for (std::size_t i = 0; i < rows().size(); ++i) {
    SCOPED_TRACE(rows()[i].name);
    const Count& c = counts.by_row[i];
    expect_at_most(2, c.not_harmless, c.steady, "steady, and not harmless");
    if (i >= stated) continue;
    const bool clean = rows()[i].conditions.slips == 0;
    expect_at_most(2, c.none_falls, c.falling, "falling without a fall");
    expect_at_most(clean ? 6 : 8, c.outside, c.falling, "falls outside their interval");
    if (!clean) continue;
    expect_at_most(5, c.exceeded, c.bounds, "bounds of the pace exceeded");
    expect_at_most(5, c.wrongly_odd, c.series, "series with a reading called odd");
  }
  for (std::size_t i = 0; i < shape_names.size(); ++i) {
    SCOPED_TRACE(shape_names.at(i));
    const Count& c = counts.by_shape[i];
    if (static_cast<Shape>(i) == Shape::none) {
      expect_at_most(2, c.falling, c.verdicts, "falling without a fall");
      continue;
    }
    expect_at_most(2, c.none_falls, c.falling, "falling without a fall");
    expect_at_most(8, c.outside, c.falling, "falls outside their interval");
  }
  expect_at_most(20, counts.all.slips - counts.all.found, counts.all.slips, "slips that pass");
  expect_at_most(12, counts.all.stopped, counts.all.falling, "falling, and it had stopped");
  Count clean = counts.by_row[0];
  clean.add(counts.by_row[1]);
  constexpr double late = 10;
  expect_at_most(late + 3 * std::sqrt(late * (100 - late) / clean.knowable),
                 clean.knowable - clean.certain_then, clean.knowable, "falls not known in time");
  const std::string figures = table(counts);
  if (const char* file = std::getenv("AREO_PRINT")) std::ofstream{file} << figures;
  if (std::getenv("AREO_TEST_SEED") != nullptr || cases_here != usual) return;
  std::ifstream file{AREO_TABLES_DIR "/../docs/explanation/series.txt"};
  const std::string written{std::istreambuf_iterator<char>{file}, {}};
  EXPECT_EQ(written, figures);
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
