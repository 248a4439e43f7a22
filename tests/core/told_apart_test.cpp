// SPDX-License-Identifier: GPL-3.0-or-later
// A statement that one number is larger than another follows from what is printed.
#include "areo/core/told_apart.hpp"

#include <gtest/gtest.h>

namespace areo {
namespace {

TEST(ToldApart, TwoDigitsWhereTheyTell) {
  EXPECT_EQ(beside_expanded(0.0078, 0.018), "+0.0078 ± 0.018");
  EXPECT_EQ(beside_expanded(-0.0302, 0.0148), "-0.03 ± 0.015");
}

TEST(ToldApart, OneMoreWhereTwoWouldLookTheSame) {
  EXPECT_EQ(beside_expanded(-0.01523, 0.01482), "-0.0152 ± 0.0148");
  EXPECT_EQ(beside_expanded(0.014961, 0.014964), "+0.014961 ± 0.014964");
  EXPECT_EQ(beside_expanded(0.015, 0.015), "+0.015 ± 0.015");
}

TEST(ToldApart, ThePlaceWhereTwoNumbersDiffer) {
  EXPECT_EQ(telling_place(0.00121, 0.00088, 4), 4);
  EXPECT_EQ(telling_place(0.00121, 0.00119, 4), 5);
  EXPECT_EQ(telling_place(0.00121, 0.00121, 4), 4);
  EXPECT_EQ(telling_place(146, 151, -1), 0);
}

}  // namespace
}  // namespace areo
