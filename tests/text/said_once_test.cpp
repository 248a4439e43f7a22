// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/text/said_once.hpp"

#include <gtest/gtest.h>

#include <string>

namespace areo::text {
namespace {

TEST(SaidOnce, CountsTheSameOfManyLines) {
  SaidOnce once;
  for (std::size_t line = 2; line <= 100'001; ++line) once.add(line, "no unit", "write one");
  const auto told = once.reported();
  ASSERT_EQ(told.size(), 1u);
  EXPECT_EQ(told[0].line, 2u);
  EXPECT_EQ(told[0].message, "no unit, and 99999 more lines: 3 to 100001");
  EXPECT_EQ(told[0].hint, "write one");
}

TEST(SaidOnce, LeavesASingleLineAsItIs) {
  SaidOnce once;
  once.add(4, "no unit", "");
  ASSERT_EQ(once.reported().size(), 1u);
  EXPECT_EQ(once.reported()[0].message, "no unit");
}

TEST(SaidOnce, TakesOtherNumbersForTheSame) {
  SaidOnce once;
  once.add(2, "12.5 without a unit", "write 12.5P");
  once.add(5, "50 without a unit", "write 50P");
  once.add(7, "cannot be read", "");
  once.add(8, "7,25 without a unit", "");
  const auto told = once.reported();
  ASSERT_EQ(told.size(), 2u);
  EXPECT_EQ(told[0].message, "12.5 without a unit, and 2 more lines like it: 5, 8");
  EXPECT_EQ(told[0].hint, "write 12.5P");
  EXPECT_EQ(told[1].message, "cannot be read");
}

TEST(SaidOnce, KeepsNamesApart) {
  SaidOnce once;
  once.add(2, "no batch is called 'PT-1'", "");
  once.add(3, "no batch is called 'PT-2'", "");
  once.add(4, "'kg/m3' is not its scale", "");
  once.add(5, "'kg/m4' is not its scale", "");
  EXPECT_EQ(once.reported().size(), 4u);
}

TEST(SaidOnce, ListsSomeStretchesAndCountsAll) {
  SaidOnce once;
  for (std::size_t line = 2; line < 2 + 2 * 30; line += 2) once.add(line, "no unit", "");
  ASSERT_EQ(once.reported().size(), 1u);
  EXPECT_EQ(once.reported()[0].message,
            "no unit, and 29 more lines: 4, 6, 8, 10, 12, 14, 16, 18, 20, 22, ...");
}

TEST(SaidOnce, HasBoundedMemory) {
  SaidOnce once;
  for (std::size_t i = 0; i < 5000; ++i)
    once.add(i + 2, "no batch 'x" + std::to_string(i) + "'", "");
  const auto told = once.reported();
  ASSERT_EQ(told.size(), SaidOnce::most_kinds + 1);
  EXPECT_EQ(told.back().line, 2 + SaidOnce::most_kinds);
  EXPECT_EQ(told.back().message, "other errors, and 4899 more lines like it: 103 to 5001");
}

}  // namespace
}  // namespace areo::text
