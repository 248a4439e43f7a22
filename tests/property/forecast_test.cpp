// SPDX-License-Identifier: GPL-3.0-or-later
// What is said of the end of a ferment must be right as often as docs/explanation/outlook.md says,
// whatever the ferment does next: also where no reading shows that its pace will change.
// AREO_TEST_CASES=100000: for minutes; AREO_PRINT=FILE writes the table that the document holds.
#include "areo/trend/forecast.hpp"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "areo/measurement/ferments.hpp"
#include "areo/physics/scale.hpp"
#include "figures.hpp"
#include "hostile.hpp"

namespace areo::property {
namespace {

using trend::Forecast;
using trend::Phase;

struct Count {
  int verdicts = 0, above = 0;  // above: it ended higher than was said
  double room = 0;              // from the true end up to the highest one
  int lower = 0, below = 0;     // it ended lower than was said
  int dates = 0, early = 0;     // called steady on an earlier day
  double days = 0;              // until that date
};

// By the name of a row, in the order in which they were met.
class Table {
 public:
  Count& operator[](const std::string& name) {
    if (rows_.find(name) == rows_.end()) order_.push_back(name);
    return rows_[name];
  }
  [[nodiscard]] const std::vector<std::string>& names() const { return order_; }
  [[nodiscard]] const Count& at(const std::string& name) const { return rows_.at(name); }

 private:
  std::vector<std::string> order_;
  std::map<std::string, Count> rows_;
};

struct Row {
  std::string_view name;
  Conditions conditions;
};
// Of the first three areo's statements on the uncertainty are true.
constexpr std::size_t stated = 3;
const std::array rows{Row{"no slips, all degassed", {}},
                      Row{"2 % slips, all degassed", {.slips = 0.02}},
                      Row{"5 % slips, a third fizzy", {.slips = 0.05, .fizzy = true}},
                      Row{"twice the error", {.times_error = 2}},
                      Row{"bubbles nobody marked", {.fizzy_unmarked = true}}};

constexpr std::size_t worlds = shape_names.size() + change_names.size();

std::string name_of(std::size_t kind) {
  return std::string{kind < shape_names.size() ? shape_names.at(kind)
                                               : change_names.at(kind - shape_names.size())};
}

Notes any_of(World& world, std::size_t kind, const Conditions& conditions) {
  return kind < shape_names.size()
             ? any_notes(world, static_cast<Shape>(kind), conditions)
             : any_notes(world, static_cast<Change>(kind - shape_names.size()), conditions);
}

std::string stage(const Notes& notes, double end, double today) {
  const double done =
      notes.original > end ? (notes.original - notes.gravity(today)) / (notes.original - end) : 1;
  return done < 0.5    ? "less than half of its fall done"
         : done < 0.85 ? "half to 85 %"
         : done < 0.95 ? "85 % to 95 %"
         : done < 0.99 ? "95 % to 99 %"
                       : "more than 99 %";
}

std::string_view word(Phase p) {
  constexpr std::array<std::string_view, 6> words{"cannot tell", "not begun",    "falling",
                                                  "fell",        "no fall seen", "steady"};
  return words.at(static_cast<std::size_t>(p));
}

// The original as the same person read it, and the gravity without extract of it.
std::optional<uncertainty::Value> lowest_of(World& world, const Notes& notes) {
  constexpr double of_thermometer = 0.00006;
  const double eye = std::hypot(notes.division / 2 / std::sqrt(6), of_thermometer);
  const double read =
      notes.original + world.uniform(-0.5, 0.5) * notes.division + world.normal(eye);
  const auto extract = [](double sg) {
    return 100 * physics::liquid_from_mark(physics::sg_20_20, sg).extract.value();
  };
  constexpr double h = 0.001;
  const double slope = (extract(read + h) - extract(read - h)) / (2 * h);
  return measurement::gravity_without_extract(
      {extract(read), slope * std::hypot(eye, notes.division / 2)});
}

// On a later day than today, and before the date that was told; nothing if nobody read then.
std::optional<bool> was_steady_before(const Notes& notes, const std::vector<trend::State>& states,
                                      std::size_t n, double date) {
  std::optional<bool> was;
  for (std::size_t k = n; k < notes.readings.size(); ++k)
    if (std::floor(notes.readings.days[k]) < std::floor(date))
      was = was.value_or(false) || states[k].phase == Phase::steady;
  return was;
}

// Comparisons are so that a number that is none counts as wrong.
void judge(const Forecast& o, double end, const std::optional<bool>& early, double days, Count& c) {
  ++c.verdicts;
  if (o.highest) {
    c.above += end <= *o.highest ? 0 : 1;
    c.room += *o.highest - end;
  }
  if (o.lowest) {
    ++c.lower;
    c.below += end >= *o.lowest ? 0 : 1;
  }
  if (!early) return;
  ++c.dates;
  c.early += *early ? 1 : 0;
  c.days += days;
}

struct Tables {
  Table by_world, by_stage, by_phase, by_row, by_world_and_stage;
};

void study(World& world, std::size_t kind, const Row& row, bool is_stated, Tables& t) {
  const Notes notes = any_of(world, kind, row.conditions);
  constexpr double long_after = 1e6;
  const double end = notes.gravity(long_after);
  const auto lowest = lowest_of(world, notes);
  std::vector<trend::State> states;
  for (std::size_t n = 1; n <= notes.readings.size(); ++n)
    states.push_back(trend::state_of(notes.first(n)));
  for (std::size_t n = 1; n <= states.size(); n += 2) {
    const trend::State& state = states[n - 1];
    const Forecast o = trend::forecast_of(notes.first(n), state, lowest);
    if (!o.highest) continue;
    const double today = notes.readings.days[n - 1];
    std::optional<bool> early;
    if (o.steady_from) early = was_steady_before(notes, states, n, *o.steady_from);
    const auto count = [&](Table& table, const std::string& name) {
      judge(o, end, early, o.steady_from.value_or(today) - today, table[name]);
    };
    count(t.by_row, std::string{row.name});
    if (!is_stated) continue;
    const std::string done = stage(notes, end, today);
    count(t.by_world, name_of(kind));
    count(t.by_stage, done);
    count(t.by_phase, std::string{word(state.phase)});
    count(t.by_world_and_stage, name_of(kind) + ", " + done);
  }
}

std::string cells(std::string_view name, const std::array<std::string, 6>& c) {
  return fmt::format("{:<32}{:>9}{:>10}{:>8}{:>10}{:>9}{:>7}\n", name, c[0], c[1], c[2], c[3], c[4],
                     c[5]);
}

// As docs/explanation/outlook.txt has it.
std::string text_of(const Tables& t) {
  std::string text = cells("", {"", "not", "", "not", "no day", "days"}) +
                     cells("in percent", {"outlooks", "above", "by", "below", "before", "ahead"});
  for (const Table* table : {&t.by_world, &t.by_stage, &t.by_phase, &t.by_row}) {
    for (const std::string& name : table->names()) {
      const Count& c = table->at(name);
      text += cells(name, {fmt::format("{}", c.verdicts), percent(c.verdicts - c.above, c.verdicts),
                           fmt::format("{:.4f}", c.room / c.verdicts),
                           percent(c.lower - c.below, c.lower), percent(c.dates - c.early, c.dates),
                           c.dates == 0 ? "-" : fmt::format("{:.0f}", c.days / c.dates)});
    }
    text += table == &t.by_row ? "" : "\n";
  }
  return text;
}

void expect_at_least(double least_percent, int part, int of, std::string_view what) {
  EXPECT_GE(100.0 * part, least_percent * of) << what << ": " << part << " of " << of;
}

// Each row by itself: 95 % are said, and 92 % must hold in the worst. A date has no figure and is
// meant to be sure: a row misses some all the same, as one series that goes wrong does so on many
// days.
void expect_of(const Table& table, double sure) {
  constexpr double worst_of_95 = 92;
  constexpr int enough = 100;
  for (const std::string& name : table.names()) {
    SCOPED_TRACE(name);
    const Count& c = table.at(name);
    if (c.verdicts >= enough) {
      expect_at_least(worst_of_95, c.verdicts - c.above, c.verdicts, "ends no higher");
      expect_at_least(worst_of_95, c.lower - c.below, c.lower, "ends no lower");
    }
    if (c.dates >= enough) expect_at_least(sure, c.dates - c.early, c.dates, "not steady before");
  }
}

TEST(OutlookStudy, SentencesAreRightAsOftenAsStated) {
  Draws draws;
  SCOPED_TRACE(draws.trace());
  World world{draws};
  constexpr int usual = 4000;
  const int cases_here = std::max(cases_wanted(), usual);
  Tables t;
  for (std::size_t kind = 0; kind < worlds; ++kind)
    for (std::size_t row = 0; row < rows.size(); ++row)
      for (int i = 0; i < cases_here / 250; ++i) study(world, kind, rows.at(row), row < stated, t);
  EXPECT_EQ(t.by_world.names().size(), worlds);
  constexpr double sure = 96, sure_of_few = 92;
  for (const Table* table : {&t.by_world, &t.by_stage, &t.by_phase, &t.by_row})
    expect_of(*table, sure);
  expect_of(t.by_world_and_stage, sure_of_few);
  int dates = 0;
  for (const std::string& name : t.by_world.names()) dates += t.by_world.at(name).dates;
  EXPECT_GE(dates, 1000);
  expect_written(text_of(t), "outlook.txt", cases_here == usual);
}

}  // namespace
}  // namespace areo::property
