// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/core/nearest.hpp"

#include <gtest/gtest.h>

#include <vector>

namespace areo {
namespace {

const std::vector<std::string> commands{"convert", "correct", "alcohol", "table"};

TEST(Nearest, ForgivesOneSlipOfAnyKind) {
  EXPECT_EQ(nearest("convrt", commands), "convert");    // left out
  EXPECT_EQ(nearest("convvert", commands), "convert");  // doubled
  EXPECT_EQ(nearest("kable", commands), "table");       // replaced
  EXPECT_EQ(nearest("tabel", commands), "table");       // swapped: two edits
  EXPECT_EQ(nearest("convert", commands), "convert");
}

TEST(Nearest, IsSilentWhenNothingIsNear) {
  EXPECT_EQ(nearest("xyzzy", commands), "");
  EXPECT_EQ(nearest("refractometer", commands), "");
  EXPECT_EQ(nearest("", commands), "");
  EXPECT_EQ(nearest("convert", {}), "");
}

TEST(Nearest, OfEquallyNearOnesTheFirst) {
  const std::vector<std::string> names{"stem-1", "stem-2"};
  EXPECT_EQ(nearest("stem-3", names), "stem-1");
  EXPECT_EQ(nearest("stem-2", names), "stem-2");
}

TEST(Nearest, AllowsHalfOfTheWordAndNoMore) {
  const std::vector<std::string> names{"abcd"};
  EXPECT_EQ(nearest("abxy", names), "abcd");
  EXPECT_EQ(nearest("axyz", names), "");
  EXPECT_EQ(nearest("x", std::vector<std::string>{"y"}), "y");  // one edit is always allowed
}

TEST(Nearest, SurvivesAnyBytes) {
  EXPECT_EQ(nearest("\xff\xfe", commands), "");
  EXPECT_EQ(nearest(std::string(5000, 'x'), commands), "");
  EXPECT_EQ(nearest("caf\xc3\xa9-1", std::vector<std::string>{"caf\xc3\xa9-2"}), "caf\xc3\xa9-2");
}

}  // namespace
}  // namespace areo
