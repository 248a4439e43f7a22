// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/calibration/drift.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <vector>

#include "areo/core/error.hpp"

namespace areo::calibration {
namespace {

constexpr double own = 0.0005;  // standard uncertainty of a check that no other shares
constexpr double k_one = 1.959964, k_line = 2.447747;  // roots of 3.841459 and 5.991465
// Each end within a division, rectangular.
const double usual_slope = 0.002 * std::sqrt(2.0 / 3) / 0.110;

struct At {
  double indication, correction;
};
// Checks that err together by `shared`.
CheckSet checks(const std::vector<At>& places, double shared = 0) {
  CheckSet set{{}, numeric::Covariance{places.size()}};
  for (std::size_t i = 0; i < places.size(); ++i) {
    const auto& [r, b] = places[i];
    const double u = std::hypot(own, shared);
    set.checks.push_back({"test", r, {r + b, u}, {b, u}});
    for (std::size_t j = 0; j <= i; ++j)
      set.covariance.set(i, j, shared * shared + (i == j ? own * own : 0));
  }
  return set;
}
Drift between(const CheckSet& set, const Selection& before, const Selection& after) {
  return drift(set, before, after, 0.002, 0.110);
}

// By hand: u(difference) = 0.0005 √2 = 0.00070711, U = 0.00138590, En = -0.0008 / U = -0.57724.
TEST(Drift, OfTwoChecksInWaterByHand) {
  const Drift d = between(checks({{1.001, -0.0012}, {1.001, -0.0020}}), {0}, {1});
  ASSERT_EQ(d.points.size(), 1U);
  EXPECT_EQ(d.points[0].indication, 1.001);
  EXPECT_NEAR(d.points[0].difference, -0.0008, 1e-15);
  EXPECT_NEAR(d.points[0].u, 0.00070711, 5e-9);
  EXPECT_NEAR(d.points[0].expanded, 0.00138590, 5e-9);
  EXPECT_NEAR(d.points[0].en, -0.57724, 5e-6);
  EXPECT_EQ(d.verdict, DriftVerdict::none_seen);
}

// What both checks share cancels in the difference. Independent values of the same uncertainty,
// √(0.0005² + 0.0004²) each, would make U = 0.0017748 of it.
TEST(Drift, WhatTheChecksShareCancels) {
  const std::vector<At> places{{1.001, -0.0012}, {1.001, -0.0028}};
  const Drift alone = between(checks(places), {0}, {1});
  const Drift together = between(checks(places, 0.0004), {0}, {1});
  EXPECT_NEAR(together.points[0].u, alone.points[0].u, 1e-15);
  EXPECT_NEAR(together.points[0].en, -0.0016 / 0.00138590, 1e-5);  // -1.1545
  EXPECT_EQ(together.verdict, DriftVerdict::drifted);
  CheckSet independent = checks(places, 0.0004);
  independent.covariance.set(0, 1, 0);
  const Drift as_if = between(independent, {0}, {1});
  EXPECT_NEAR(as_if.points[0].expanded, 0.0017748, 5e-8);
  EXPECT_EQ(as_if.verdict, DriftVerdict::none_seen);
}

TEST(Drift, EnOfOneIsTheLimit) {
  const double expanded = k_one * own * std::sqrt(2.0);
  const auto verdict = [&](double difference) {
    return between(checks({{1.001, 0}, {1.001, difference}}), {0}, {1}).verdict;
  };
  EXPECT_EQ(verdict(0.9999 * expanded), DriftVerdict::none_seen);
  EXPECT_EQ(verdict(-0.9999 * expanded), DriftVerdict::none_seen);
  EXPECT_EQ(verdict(1.0001 * expanded), DriftVerdict::drifted);
  EXPECT_EQ(verdict(-1.0001 * expanded), DriftVerdict::drifted);
}

// (y0 + y2) / 2 - (y0 + y1) / 2: the check that is in both leaves (y2 - y1) / 2, u = 0.0005 / √2,
// in the middle; further up more of it, as far as the slope is taken.
TEST(Drift, ACheckInBothCancels) {
  const Drift d = between(checks({{1.000, 0}, {1.050, 0.0002}, {1.050, 0.0006}}), {0, 1}, {0, 2});
  ASSERT_EQ(d.points.size(), 3U);
  for (const DriftPoint& p : d.points) {
    const double part = 0.5 + (p.indication - 1.025) / 0.050;
    EXPECT_NEAR(p.difference, 0.0004 * part, 1e-15);
    EXPECT_NEAR(p.u, part * own * std::sqrt(2.0), 1e-10);
    EXPECT_NEAR(p.expanded, k_line * p.u, 1e-9);
    EXPECT_TRUE(std::isfinite(p.en));
  }
  EXPECT_EQ(d.points[0].indication, 1.000);
  EXPECT_EQ(d.points[1].indication, 1.025);
  EXPECT_EQ(d.points[2].indication, 1.050);
}

// Lines are compared, whatever part of their slopes the corrections take. At 1.080 both lines are
// their second checks.
TEST(Drift, LinesAreCompared) {
  const CheckSet set = checks({{1.000, 0}, {1.080, 0}, {1.000, 0}, {1.080, 0.0040}});
  for (const bool line_after : {true, false}) {
    const Drift d = line_after ? between(set, {0, 1}, {2, 3}) : between(set, {2, 3}, {0, 1});
    ASSERT_EQ(d.points.size(), 3U);
    EXPECT_NEAR(d.points[0].difference, 0, 1e-15);
    EXPECT_NEAR(d.points[2].difference, line_after ? 0.0040 : -0.0040, 1e-14);
    EXPECT_NEAR(d.points[2].u, own * std::sqrt(2.0), 1e-12);
    EXPECT_NEAR(d.points[2].expanded, k_line * d.points[2].u, 1e-9);
    EXPECT_NEAR(d.points[1].u, own, 1e-12);  // at the middle two means are compared
  }
}

// A year later in water alone: the earlier line is its own check there.
TEST(Drift, FewerChecksLaterAreComparedAtTheirPlace) {
  const Drift d = between(checks({{1.000, 0}, {1.080, 0}, {1.000, 0.0004}}), {0, 1}, {2});
  ASSERT_EQ(d.points.size(), 1U);
  EXPECT_EQ(d.points[0].indication, 1.000);
  EXPECT_NEAR(d.points[0].difference, 0.0004, 1e-15);
  EXPECT_NEAR(d.points[0].u, own * std::sqrt(2.0), 1e-12);
}

// Two places a little apart, each checked once: the usual slope may be all that is between them.
TEST(Drift, AwayFromItsPlaceAnOffsetKnowsNoSlope) {
  const Drift d = between(checks({{1.000, 0}, {1.004, 0}}), {0}, {1});
  ASSERT_EQ(d.points.size(), 1U);
  EXPECT_NEAR(d.points[0].u, std::hypot(own * std::sqrt(2.0), usual_slope * 0.004), 1e-12);
}

TEST(Drift, ComparesOnlyWhatWasCheckedBothTimes) {
  const Drift d = between(checks({{1.000, 0}, {1.060, 0}, {1.020, 0}, {1.090, 0}}), {0, 1}, {2, 3});
  ASSERT_EQ(d.points.size(), 3U);
  EXPECT_EQ(d.points[0].indication, 1.020);
  EXPECT_EQ(d.points[2].indication, 1.060);
  const Drift none = between(checks({{1.000, 0}, {1.040, 0.01}}), {0}, {1});
  EXPECT_EQ(none.verdict, DriftVerdict::no_common_range);
  EXPECT_TRUE(none.points.empty());
  // The water is one place, though the instrument showed 0.005 more the second time.
  const Drift water = between(checks({{1.000, 0}, {1.005, -0.005}}), {0}, {1});
  EXPECT_EQ(water.verdict, DriftVerdict::drifted);
  ASSERT_EQ(water.points.size(), 1U);
  EXPECT_NEAR(water.points[0].indication, 1.0025, 1e-15);
}

TEST(Drift, TheSameChecksSayNothing) {
  const CheckSet set = checks({{1.000, 0}, {1.040, 0.0002}});
  EXPECT_EQ(between(set, {0, 1}, {1, 0}).verdict, DriftVerdict::same_checks);
  EXPECT_EQ(between(set, {0}, {0, 1}).verdict, DriftVerdict::none_seen);
}

TEST(Drift, RefusesWhatIsNoNumber) {
  const double nan = std::nan("");
  const CheckSet good = checks({{1.000, 0}, {1.000, 0.0002}});
  EXPECT_THROW((void)between(checks({{1.000, 0}, {1.000, nan}}), {0}, {1}), Error);
  EXPECT_THROW((void)between(checks({{nan, 0}, {1.000, 0}}), {0}, {1}), Error);
  for (const auto& [i, j] : {std::pair{0U, 0U}, std::pair{1U, 1U}, std::pair{0U, 1U}}) {
    CheckSet bad = good;
    bad.covariance.set(i, j, nan);
    EXPECT_THROW((void)between(bad, {0}, {1}), Error) << i << j;
  }
  EXPECT_THROW((void)drift(good, Selection{0}, Selection{1}, nan, 0.110), Error);
  EXPECT_THROW((void)drift(good, Selection{0}, Selection{1}, 0.002, nan), Error);
  EXPECT_THROW((void)between(good, {}, {1}), Error);
  EXPECT_THROW((void)between(good, {0}, {2}), Error);
}

}  // namespace
}  // namespace areo::calibration
