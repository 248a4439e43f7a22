// SPDX-License-Identifier: GPL-3.0-or-later
// The limits that the program knows are the rows of the table, and no others.
#include "areo/ferment/limit.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "areo/core/error.hpp"
#include "rows.hpp"

namespace areo::published {
namespace {

TEST(StrengthLimits, AreTheTable) {
  const auto rows = rows_of("legal-alcohol-thresholds");
  const auto known = ferment::strength_limits();
  ASSERT_EQ(rows.size(), known.size());
  for (std::size_t i = 0; i < known.size(); ++i) {
    SCOPED_TRACE(known[i].name);
    EXPECT_EQ(rows[i].text("name"), known[i].name);
    EXPECT_EQ(rows[i].number("threshold_percent_vol"), known[i].percent_vol);
    EXPECT_EQ(rows[i].text("meaning"), known[i].meaning);
    EXPECT_EQ(rows[i].text("citation"), known[i].citation);
    EXPECT_EQ(rows[i].text("verified"), known[i].verified);
  }
  EXPECT_TRUE(std::is_sorted(known.begin(), known.end(),
                             [](const auto& a, const auto& b) { return a.name < b.name; }));
}

TEST(StrengthLimits, UnknownNamesGetTheNearest) {
  EXPECT_EQ(ferment::strength_limit("us-0.5").percent_vol, 0.5);
  try {
    (void)ferment::strength_limit("us-05");
    FAIL() << "accepted";
  } catch (const ParseError& e) {
    EXPECT_EQ(e.hint, "did you mean 'us-0.5'?");
  }
}

}  // namespace
}  // namespace areo::published
