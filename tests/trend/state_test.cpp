#include "areo/trend/state.hpp"

#include <gtest/gtest.h>

#include <vector>

namespace areo::trend {
namespace {

using V = std::vector<double>;
constexpr double shared = 0.0010, own = 0.0004;

// Readings of one hydrometer, whose offset they share.
Series series(const V& days, const V& gravity) {
  Series s{days, gravity, numeric::Covariance{days.size()}};
  for (std::size_t i = 0; i < s.size(); ++i)
    for (std::size_t j = 0; j <= i; ++j)
      s.covariance.set(i, j, shared * shared + (i == j ? own * own : 0));
  return s;
}

Phase phase(const V& days, const V& gravity) { return state_of(series(days, gravity)).phase; }

TEST(Series, AFallDoesNotHoldWhatItsEndsShare) {
  const auto fall = series({0, 1}, {1.050, 1.048}).fall(0, 1);
  EXPECT_NEAR(fall.estimate, 0.002, 1e-12);
  EXPECT_NEAR(fall.u, own * std::sqrt(2.0), 1e-12);
}

TEST(Series, APartKeepsItsCovariance) {
  Series all = series({0, 1, 3}, {1.05, 1.04, 1.03});
  all.covariance.set(2, 2, 4e-6);
  const Series rest = all.from(1);
  EXPECT_EQ(rest.days, (V{1, 3}));
  EXPECT_EQ(rest.gravity, (V{1.04, 1.03}));
  EXPECT_DOUBLE_EQ(rest.covariance(0, 1), shared * shared);
  EXPECT_DOUBLE_EQ(rest.covariance(0, 0), shared * shared + own * own);
  EXPECT_DOUBLE_EQ(rest.covariance(1, 1), 4e-6);
  const Series others = all.without(1);
  EXPECT_EQ(others.days, (V{0, 3}));
  EXPECT_EQ(others.gravity, (V{1.05, 1.03}));
  EXPECT_DOUBLE_EQ(others.covariance(1, 1), 4e-6);
}

TEST(State, FollowsAFerment) {
  const V days{0, 1, 2, 3, 4, 5, 6, 7, 8, 9};
  const V gravity{1.048, 1.0482, 1.040, 1.028, 1.018, 1.0125, 1.011, 1.0102, 1.0103, 1.0101};
  const auto until = [&](std::ptrdiff_t n) {
    return phase({days.begin(), days.begin() + n}, {gravity.begin(), gravity.begin() + n});
  };
  EXPECT_EQ(until(2), Phase::lag);
  EXPECT_EQ(until(3), Phase::active);
  EXPECT_EQ(until(4), Phase::active);
  EXPECT_EQ(until(6), Phase::slowing);
  EXPECT_EQ(until(7), Phase::slowing);
  EXPECT_EQ(until(10), Phase::steady);
}

TEST(State, NothingIsSaidOfOneReading) {
  const State s = state_of(series({0}, {1.048}));
  EXPECT_EQ(s.phase, Phase::unclear);
  EXPECT_FALSE(s.whole);
}

TEST(State, SteadyTakesThreeReadingsOverTwoDays) {
  const V down{1.048, 1.030, 1.0101};
  const auto with = [&](const V& days, const V& last) {
    V all = down;
    all.insert(all.end(), last.begin(), last.end());
    return phase(days, all);
  };
  EXPECT_EQ(with({0, 2, 4, 5, 6}, {1.0101, 1.0101}), Phase::steady);
  EXPECT_NE(with({0, 2, 4, 4.9, 5.9}, {1.0101, 1.0101}), Phase::steady);  // 1.9 days
  EXPECT_NE(with({0, 2, 4, 6}, {1.0101}), Phase::steady);                 // two readings
}

TEST(State, AStretchTellsTheLargestFallThatGoesWithIt) {
  const State s = state_of(series({0, 4, 5, 7}, {1.048, 1.0102, 1.0101, 1.0101}));
  ASSERT_TRUE(s.steady);
  EXPECT_EQ(s.steady->points, 3U);
  EXPECT_NEAR(s.steady->days, 3, 1e-12);
  EXPECT_GT(s.steady->bound(), s.steady->value.estimate);
  EXPECT_LT(s.steady->bound(), 0.0015);
}

// Readings an hour apart say how well it is read, not how fast it falls.
TEST(State, NearReadingsAreNoStep) {
  const State s = state_of(series({0, 1, 1.04}, {1.048, 1.040, 1.0402}));
  ASSERT_TRUE(s.recent);
  EXPECT_NEAR(s.recent->days, 1.04, 1e-12);
  EXPECT_EQ(s.phase, Phase::active);
}

// A coarse stem may not show a fall that goes on.
TEST(State, CoarseReadingsAreNotSteady) {
  Series s = series({0, 5, 6, 7}, {1.048, 1.0101, 1.0101, 1.0101});
  for (std::size_t i = 0; i < s.size(); ++i)
    s.covariance.set(i, i, shared * shared + 0.002 * 0.002);
  EXPECT_NE(state_of(s).phase, Phase::steady);
}

}  // namespace
}  // namespace areo::trend
