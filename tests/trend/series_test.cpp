// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/trend/series.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "areo/trend/groups.hpp"
#include "daily.hpp"

namespace areo::trend {
namespace {

using testing::daily;
using testing::own;
using testing::series;
using testing::shared;
using testing::V;

TEST(Series, AFallDoesNotHoldWhatItsEndsShare) {
  const auto fall = series({0, 1}, {1.050, 1.048}).fall(0, 1);
  EXPECT_NEAR(fall.estimate, 0.002, 1e-12);
  EXPECT_NEAR(fall.u, own * std::sqrt(2.0), 1e-12);
}

TEST(Series, APartKeepsItsCovariance) {
  Series all = series({0, 1, 3}, {1.05, 1.04, 1.03});
  all.errors.set_own(2, 2e-3);
  const Series rest = all.from(1);
  EXPECT_EQ(rest.days, (V{1, 3}));
  EXPECT_EQ(rest.gravity, (V{1.04, 1.03}));
  EXPECT_DOUBLE_EQ(rest.errors(0, 1), shared * shared);
  EXPECT_DOUBLE_EQ(rest.errors(0, 0), shared * shared + own * own);
  EXPECT_DOUBLE_EQ(rest.errors(1, 1), shared * shared + 4e-6);
  const Series others = all.without(1);
  EXPECT_EQ(others.days, (V{0, 3}));
  EXPECT_EQ(others.gravity, (V{1.05, 1.03}));
  EXPECT_DOUBLE_EQ(others.errors(1, 1), shared * shared + 4e-6);
}

TEST(Groups, ADailySeriesStaysAsItIs) {
  const Groups g = grouped(daily({1.02, 1.019, 1.018, 1.017}));
  EXPECT_EQ(g.series.gravity, (V{1.02, 1.019, 1.018, 1.017}));
  EXPECT_EQ(g.members.size(), 4U);
}

// Every quarter of an hour: 24 in a quarter of a day, of which the middle one counts.
TEST(Groups, ASensorIsReadByQuartersOfADay) {
  V days, gravity;
  for (int i = 0; i < 96; ++i) {
    days.push_back(i / 96.0);
    gravity.push_back(1.020 - 0.0001 * i + (i % 24 == 5 ? 0.5 : 0));  // one slip in each
  }
  const Groups g = grouped(series(days, gravity));
  ASSERT_EQ(g.series.size(), 4U);
  EXPECT_EQ(g.members[1].front(), 24U);
  EXPECT_NEAR(g.series.gravity[0], 1.020 - 0.0001 * 11.5, 0.0002);
  EXPECT_NEAR(g.series.days[0], 11.5 / 96, 1e-9);
  EXPECT_DOUBLE_EQ(g.series.errors.own(0), own);
  EXPECT_DOUBLE_EQ(g.series.errors(0, 1), shared * shared);
}

TEST(Groups, AreNoMoreThanTwoHundred) {
  V gravity(1000, 1.010);
  EXPECT_LE(grouped(daily(gravity)).series.size(), 201U);
}

TEST(Groups, LiftedReadingsCountOnlyWhereThereAreNoOthers) {
  V days, gravity;
  for (int i = 0; i < 48; ++i) {
    days.push_back(i / 96.0);
    gravity.push_back(i % 2 == 0 ? 1.020 : 1.030);
  }
  Series s = series(days, gravity);
  for (int i = 0; i < 48; ++i) s.lifted.push_back(i % 2 == 1);
  const Groups g = grouped(s);
  EXPECT_EQ(g.series.gravity, (V{1.020, 1.020}));
  EXPECT_FALSE(g.series.is_lifted(0));
}

}  // namespace
}  // namespace areo::trend
