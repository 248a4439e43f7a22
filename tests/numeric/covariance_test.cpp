// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/numeric/covariance.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <vector>

#include "areo/core/error.hpp"

namespace areo::numeric {
namespace {

// 4 2 / 2 10 has the factor 2 0 / 1 3.
TEST(Cholesky, ByHand) {
  Covariance v{2};
  v.set(0, 0, 4);
  v.set(0, 1, 2);
  v.set(1, 1, 10);
  const auto l = cholesky(v);
  EXPECT_EQ(l[0], 2);
  EXPECT_EQ(l[1], 0);
  EXPECT_EQ(l[2], 1);
  EXPECT_EQ(l[3], 3);
}

// 4 2 / 2 10 with weights 1 and -1: 4 + 10 - 2 · 2.
TEST(Covariance, VarianceOfAWeightedSum) {
  Covariance v{2};
  v.set(0, 0, 4);
  v.set(0, 1, 2);
  v.set(1, 1, 10);
  const std::vector<double> difference{1, -1};
  EXPECT_EQ(v.variance_of(difference), 10);
}

TEST(Cholesky, FullCorrelationLeavesNothingOfItsOwn) {
  Covariance v{3};
  for (std::size_t i = 0; i < 3; ++i)
    for (std::size_t j = i; j < 3; ++j) v.set(i, j, 0.1);
  const auto l = cholesky(v);
  EXPECT_NEAR(l[3 * 2 + 0], std::sqrt(0.1), 1e-15);
  EXPECT_EQ(l[3 * 2 + 1], 0);
  EXPECT_EQ(l[3 * 2 + 2], 0);
}

TEST(Cholesky, RefusesCorrelationsThatContradict) {
  Covariance v{3};  // a goes with b, b with c, but a against c
  for (std::size_t i = 0; i < 3; ++i) v.set(i, i, 1);
  v.set(0, 1, 0.9);
  v.set(1, 2, 0.9);
  v.set(0, 2, -0.9);
  EXPECT_THROW((void)cholesky(v), Error);
  v.set(0, 1, 1);
  v.set(0, 2, 0);
  v.set(1, 2, 0.5);  // a and b are one, yet c goes with b alone
  EXPECT_THROW((void)cholesky(v), Error);
  v.set(0, 0, -1);
  EXPECT_THROW((void)cholesky(v), Error);
  v.set(0, 0, std::numeric_limits<double>::quiet_NaN());
  EXPECT_THROW((void)cholesky(v), Error);
}

}  // namespace
}  // namespace areo::numeric
