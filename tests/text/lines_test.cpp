// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/text/lines.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "areo/text/format.hpp"

namespace areo::text {
namespace {

using Lines = std::vector<std::string>;

TEST(Wrapped, BreaksBetweenWordsOnly) {
  EXPECT_EQ(wrapped("density at 20 °C", 7), (Lines{"density", "at", "20 °C"}));
  EXPECT_EQ(wrapped("incompressible a", 4), (Lines{"incompressible", "a"}));
  EXPECT_EQ(wrapped("", 4), Lines{""});
  EXPECT_EQ(longest_word("a °C at"), 2u);
  EXPECT_EQ(longest_unbroken("a °C at"), 4u);
}

TEST(Wrapped, KeepsTogetherWhatIsReadAsOne) {
  EXPECT_EQ(wrapped("of 4.98 ± 0.30 % vol or", 10), (Lines{"of", "4.98 ± 0.30 % vol", "or"}));
  EXPECT_EQ(wrapped("on 2026-03-02 10:00 on", 10), (Lines{"on", "2026-03-02 10:00", "on"}));
  EXPECT_EQ(wrapped("wrong: areo reading exclude 8 --reason TEXT", 10),
            (Lines{"wrong:", "areo reading exclude 8 --reason TEXT"}));
  EXPECT_EQ(wrapped("it (areo liquid list) is, say", 10),
            (Lines{"it", "(areo liquid list)", "is, say"}));
  EXPECT_EQ(wrapped("areo batch show 'a; b, c' x; or y", 10),
            (Lines{"areo batch show 'a; b, c' x;", "or y"}));
  EXPECT_EQ(wrapped("made with areo 0.1.0 and more", 10),
            (Lines{"made with", "areo 0.1.0", "and more"}));
}

TEST(Wrapped, CountsColumnsNotBytes) {
  EXPECT_EQ(wrapped("梨 梨 梨", 5), (Lines{"梨 梨", "梨"}));
  EXPECT_EQ(wrapped("é é é", 5), Lines{"é é é"});
}

TEST(FitSummary, GoesOnFurtherIn) {
  EXPECT_EQ(fitted("note: a b c", 11), Lines{"note: a b c"});
  EXPECT_EQ(fitted("note: a b c", 10), (Lines{"note: a b", "  c"}));
  EXPECT_EQ(fitted("  note: a b c", 11), (Lines{"  note: a b", "    c"}));
  EXPECT_EQ(fitted("  --all   every single reading", 24),
            (Lines{"  --all   every single", "          reading"}));
  EXPECT_EQ(fitted("", 10), Lines{""});
}

const std::vector<Lines> table{{"no.", "gravity 20/20", "remark", "real extract"},
                               {"1", "1.0479 ± 0.0013", "original", ""},
                               {"2-4", "1.0120 ± 0.0014", "full of bubbles, not degassed", "4.3"}};

TEST(TableText, StandsBelowItsHeads) {
  const TableText wide = table_text(table, 80);
  EXPECT_EQ(wide.left_out, 0u);
  EXPECT_EQ(wide.lines, (Lines{"no.  gravity 20/20    remark                         real extract",
                               "1    1.0479 ± 0.0013  original",
                               "2-4  1.0120 ± 0.0014  full of bubbles, not degassed  4.3"}));
}

TEST(TableText, BreaksWordsBeforeItLeavesOut) {
  const TableText narrow = table_text(table, 50, 1);
  EXPECT_EQ(narrow.left_out, 0u);
  EXPECT_EQ(
      narrow.lines,
      (Lines{"no.  gravity 20/20    remark            real",
             "                                        extract", "1    1.0479 ± 0.0013  original",
             "2-4  1.0120 ± 0.0014  full of bubbles,  4.3", "                      not degassed"}));
  EXPECT_EQ(narrow.needed, 47u);
  EXPECT_EQ(table_text(table, narrow.needed, 1).left_out, 0u);
  const TableText less = table_text(table, narrow.needed - 1, 1);
  EXPECT_EQ(less.left_out, 1u);
  EXPECT_EQ(less.lines.front(), "no.  gravity 20/20    remark");
}

// Whatever the width: no line is wider, and no character of a number goes.
TEST(TableText, LosesNothingOnTheWay) {
  for (std::size_t columns = 16; columns <= 80; ++columns) {
    std::string all;
    for (const std::string& line : table_text(table, columns).lines) {
      EXPECT_LE(display_width(line), std::max<std::size_t>(columns, 40)) << line;
      all += line + "\n";
    }
    for (const char* number : {"1.0479", "0.0013", "1.0120", "0.0014", "4.3", "2-4"})
      EXPECT_NE(all.find(number), all.npos) << number << " at " << columns;
  }
}

TEST(TableText, RunsOnBelowEmptyCells) {
  const std::vector<Lines> rows{{"a", "b", "c"}, {"1", "no original gravity", ""}, {"2", "3", "4"}};
  EXPECT_EQ(table_text(rows, 40).lines, (Lines{"a  b  c", "1  no original gravity", "2  3  4"}));
  EXPECT_EQ(table_text(rows, 16).lines,
            (Lines{"a  b  c", "1  no original", "   gravity", "2  3  4"}));
}

TEST(TableText, BreaksANameThatNoLineHolds) {
  const std::string name(50, 'x');
  const TableText t = table_text({{"name", "n"}, {name, "1.048"}}, 40);
  std::size_t letters = 0;
  for (const std::string& line : t.lines) {
    EXPECT_LE(display_width(line), 40u);
    letters += static_cast<std::size_t>(std::count(line.begin(), line.end(), 'x'));
  }
  EXPECT_EQ(letters, 50u);
}

TEST(TableText, OfNothingIsNothing) { EXPECT_TRUE(table_text({}, 80).lines.empty()); }

}  // namespace
}  // namespace areo::text
