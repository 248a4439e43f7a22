// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/uncertainty/repeatability.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "areo/core/error.hpp"

namespace areo::uncertainty {
namespace {

using Samples = std::vector<std::vector<double>>;

// By hand: (1 + 1) + (4 + 0 + 4) over 1 + 2 degrees of freedom.
TEST(Repeatability, PoolsTheSquaresAboutEachMean) {
  const Repeatability r = pooled_repeatability(Samples{{1, 3}, {2, 4, 6}});
  EXPECT_NEAR(r.s * r.s, 10.0 / 3, 1e-14);
  EXPECT_EQ(r.degrees_of_freedom, 3);
  EXPECT_EQ(r.samples, 2u);
}

TEST(Repeatability, OfOneSampleIsItsStandardDeviation) {
  const Repeatability r = pooled_repeatability(Samples{{9.9, 10.0, 10.1}});
  EXPECT_NEAR(r.s, 0.1, 1e-12);
  EXPECT_EQ(r.degrees_of_freedom, 2);
}

TEST(Repeatability, SingleReadingsSayNothing) {
  const Repeatability r = pooled_repeatability(Samples{{5}, {}, {7}});
  EXPECT_EQ(r.s, 0);
  EXPECT_EQ(r.degrees_of_freedom, 0);
  EXPECT_EQ(r.samples, 0u);
}

TEST(Repeatability, DoesNotSeeTheMeans) {
  const Repeatability near = pooled_repeatability(Samples{{1, 2}, {1, 2}});
  const Repeatability far = pooled_repeatability(Samples{{1, 2}, {1001, 1002}});
  EXPECT_EQ(near.s, far.s);
}

TEST(Repeatability, RefusesWhatIsNoNumber) {
  for (const double bad : {std::nan(""), std::numeric_limits<double>::infinity()})
    EXPECT_THROW((void)pooled_repeatability(Samples{{1, bad}}), Error);
}

}  // namespace
}  // namespace areo::uncertainty
