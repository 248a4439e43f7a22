// SPDX-License-Identifier: GPL-3.0-or-later
// The helper itself: it must stop the program rather than compare nothing.
#include "rows.hpp"

#include <gtest/gtest-spi.h>
#include <gtest/gtest.h>

#include <limits>
#include <sstream>
#include <stdexcept>
#include <string>

namespace areo::published {
namespace {

std::vector<Row> from(const std::string& text) {
  std::istringstream in{text};
  return rows_from(in, "t.csv");
}

TEST(Rows, CarrySourceLineAndCells) {
  const auto rows = from("# source: [x] table 1\n# verified: computed\na,b\n1,2.50\n\n3,\n");
  ASSERT_EQ(rows.size(), 2u);
  EXPECT_EQ(rows[0].line, 4u);
  EXPECT_EQ(rows[1].line, 6u);
  EXPECT_EQ(rows[0].table->source, "[x] table 1");
  EXPECT_NE(rows[0].where().find("t.csv:4"), std::string::npos);
  EXPECT_NE(rows[0].where().find("verified: computed"), std::string::npos);
  EXPECT_EQ(rows[0].number("a"), 1);
  EXPECT_TRUE(rows[1].empty("b"));
  EXPECT_THROW((void)rows[1].number("b"), std::runtime_error);
  EXPECT_THROW((void)rows[0].text("c"), std::runtime_error);
}

TEST(Rows, RefuseTablesOfUnknownOrigin) {
  EXPECT_THROW(from("# verified: computed\na\n1\n"), std::runtime_error);
  EXPECT_THROW(from("# source:\n# verified: computed\na\n1\n"), std::runtime_error);
  EXPECT_THROW(from("# source: [x]\na\n1\n"), std::runtime_error);
  EXPECT_THROW(from("# source: [x]\n# verified: computed\na\n"), std::runtime_error);
  EXPECT_THROW(from("# source: [x]\n# verified: computed\na\n1,2\n"), std::runtime_error);
  EXPECT_THROW(from(""), std::runtime_error);
  EXPECT_THROW(rows_of("no-such-table"), std::runtime_error);
  EXPECT_THROW(rows_of("boiling-point", "kind", "no such kind"), std::runtime_error);
}

TEST(Rows, KnowHalfTheLastPrintedDigit) {
  EXPECT_DOUBLE_EQ(printed("998.2").half_digit, 0.05);
  EXPECT_DOUBLE_EQ(printed("+0.04").value, 0.04);
  EXPECT_DOUBLE_EQ(printed("-0.30").half_digit, 0.005);
  EXPECT_DOUBLE_EQ(printed("12").half_digit, 0.5);
  EXPECT_THROW(printed("1.0 "), std::runtime_error);
  EXPECT_THROW(printed(""), std::runtime_error);
  EXPECT_THROW(printed("2.5e-05"), std::runtime_error);
}

// What every comparison here relies on.
TEST(Rows, ComparisonsFailOnNaN) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  testing::TestPartResultArray failures;
  {
    testing::ScopedFakeTestPartResultReporter intercept{
        testing::ScopedFakeTestPartResultReporter::INTERCEPT_ONLY_CURRENT_THREAD, &failures};
    EXPECT_NEAR(nan, 1, 10);
  }
  EXPECT_EQ(failures.size(), 1);
}

}  // namespace
}  // namespace areo::published
