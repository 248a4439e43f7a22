// SPDX-License-Identifier: GPL-3.0-or-later
#include "stream/table_dates.hpp"

#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "areo/core/error.hpp"

namespace areo::stream {
namespace {

TableDates looked_at(const std::vector<std::string>& cells, DateOrder said = DateOrder::unknown,
                     DateOrder usual = DateOrder::unknown) {
  TableDates dates{said, usual};
  std::size_t line = 1;
  for (const std::string& cell : cells) dates.look_at(cell, ++line);
  return dates;
}

std::string refusal(const TableDates& dates, const std::string& cell) {
  try {
    return "taken as " + dates.iso(cell);
  } catch (const ParseError& e) {
    return e.what();
  }
}

TEST(TableDates, AnyRowShowsTheOrderOfAll) {
  EXPECT_EQ(looked_at({"3/4/2026", "27/4/2026"}).iso("3/4/2026"), "2026-04-03");
  EXPECT_EQ(looked_at({"3/4/2026", "4/27/2026"}).iso("3/4/2026"), "2026-03-04");
  EXPECT_EQ(looked_at({"3.4.2026"}).iso("3.4.2026"), "2026-04-03");
  EXPECT_EQ(looked_at({"3.4.2026", "4.27.2026"}).iso("3.4.2026"), "2026-03-04");
  EXPECT_EQ(looked_at({"3/4/2026", "4/27/2026"}).words(),
            std::vector<std::string>{"dates have the month first, as line 3 shows"});
  EXPECT_TRUE(looked_at({"2026-04-03", "4/27/2026"}).words().empty()) << "nothing depends on it";
  EXPECT_TRUE(looked_at({"3.4.2026", "27.4.2026"}).words().empty()) << "dots always have that";
}

TEST(TableDates, WithoutOneTheFirstUnclearRowIsTold) {
  const TableDates dates = looked_at({"2026-04-03", "3/4/2026", "5/6/2026"});
  const std::string why =
      "'3/4/2026' could be 3 April or 4 March in line 3, and no row shows which";
  EXPECT_EQ(refusal(dates, "3/4/2026"), why);
  EXPECT_EQ(refusal(dates, "5/6/2026"), why) << "one reason for all, so that it is told once";
  EXPECT_EQ(dates.iso("2026-04-03"), "2026-04-03");
  EXPECT_EQ(dates.iso("4/4/2026"), "2026-04-04");
}

TEST(TableDates, TwoOrdersAreNone) {
  const TableDates dates = looked_at({"3/4/2026", "27/4/2026", "4/28/2026"});
  EXPECT_EQ(refusal(dates, "3/4/2026"),
            "'3/4/2026' could be 3 April or 4 March in line 2, and line 3 has the day first, line "
            "4 the month");
  EXPECT_EQ(dates.iso("27/4/2026"), "2026-04-27");
  EXPECT_EQ(dates.iso("4/28/2026"), "2026-04-28");
  EXPECT_EQ(refusal(dates, "31/11/2026"), "'31/11/2026' is a day that no calendar has");
}

TEST(TableDates, WhatWasSaidCountsAndWhatIsUsualComesLast) {
  const std::vector<std::string> cells{"3/4/2026", "5/6/2026"};
  EXPECT_EQ(looked_at(cells, DateOrder::day_first).iso("3/4/2026"), "2026-04-03");
  EXPECT_EQ(looked_at(cells, DateOrder::month_first).iso("3/4/2026"), "2026-03-04");
  const TableDates usual = looked_at(cells, DateOrder::unknown, DateOrder::month_first);
  EXPECT_EQ(usual.iso("3/4/2026"), "2026-03-04");
  EXPECT_EQ(usual.words(),
            std::vector<std::string>{"dates have the month first, as areo settings say"});
  EXPECT_EQ(looked_at({"3/4/2026", "27/4/2026"}, DateOrder::unknown, DateOrder::month_first)
                .iso("3/4/2026"),
            "2026-04-03")
      << "the table knows better";
}

}  // namespace
}  // namespace areo::stream
