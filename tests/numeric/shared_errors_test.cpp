// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/numeric/shared_errors.hpp"

#include <gtest/gtest.h>

#include <vector>

namespace areo::numeric {
namespace {

// Values 0 and 1 share an error of 3, values 1 and 2 one of 2; value 1 is against it.
SharedErrors three() {
  SharedErrors e = SharedErrors::independent(std::vector<double>{1, 2, 4});
  e.add_share(0, 0, 3);
  e.add_share(1, 0, 3);
  e.add_share(1, 1, -2);
  e.add_share(2, 1, 2);
  return e;
}

TEST(SharedErrors, CovarianceByHand) {
  const SharedErrors e = three();
  EXPECT_EQ(e(0, 0), 1 + 9);
  EXPECT_EQ(e(1, 1), 4 + 9 + 4);
  EXPECT_EQ(e(2, 2), 16 + 4);
  EXPECT_EQ(e(0, 1), 9);
  EXPECT_EQ(e(1, 0), 9);
  EXPECT_EQ(e(1, 2), -4);
  EXPECT_EQ(e(0, 2), 0);
}

TEST(SharedErrors, TheMatrixIsTheSame) {
  const SharedErrors e = three();
  const Covariance v = e.matrix();
  for (std::size_t i = 0; i < 3; ++i)
    for (std::size_t j = 0; j < 3; ++j) EXPECT_EQ(v(i, j), e(i, j));
  const std::vector<double> weights{1, -1, 0.5};
  EXPECT_DOUBLE_EQ(e.variance_of(weights), v.variance_of(weights));
  // 1 + 4 + 4 of their own; 3 - 3 = 0, and 2 + 1 = 3.
  EXPECT_DOUBLE_EQ(e.variance_of(weights), 9 + 9);
}

TEST(SharedErrors, SomeOfThem) {
  const std::vector<std::size_t> kept{2, 1, 1};
  const SharedErrors e = three().only(kept);
  EXPECT_EQ(e(0, 0), 20);
  EXPECT_EQ(e(0, 1), -4);
  EXPECT_EQ(e(1, 1), 17);
  EXPECT_EQ(e(1, 2), 13) << "one named twice has two errors of its own";
}

}  // namespace
}  // namespace areo::numeric
