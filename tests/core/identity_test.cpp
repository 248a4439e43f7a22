// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/core/identity.hpp"

#include <gtest/gtest.h>

#include <array>
#include <string>
#include <thread>
#include <vector>

namespace areo {
namespace {

TEST(Identity, ACopyIsTheSameAndAnythingElseAnother) {
  const Identity one;
  const Identity copy = one;
  EXPECT_EQ(copy, one);
  EXPECT_NE(Identity{}, one);
  EXPECT_NE(Identity{}, Identity{});
}

TEST(Identity, NumbersOfOneListAreTheSameThing) {
  const IdentityRegister here{"a list"};
  EXPECT_EQ(here.at(1), IdentityRegister{"a list"}.at(1));
  EXPECT_NE(here.at(1), here.at(2));
  EXPECT_NE(here.at(1), IdentityRegister{"another list"}.at(1));
  EXPECT_NE(here.at(1), IdentityRegister{}.at(1));
  EXPECT_NE(IdentityRegister{}.at(1), IdentityRegister{}.at(1));
  EXPECT_NE(here.at(1), Identity{});
}

// Also where src/cmake/tsan.cmake looks for races: all threads make the same lists, and new things.
TEST(Identity, IsTheSameInEveryThread) {
  constexpr int threads = 4, names = 200;
  std::array<std::vector<Identity>, threads> found;
  std::vector<std::thread> all;
  for (auto& mine : found)
    all.emplace_back([&mine] {
      for (int i = 0; i < names; ++i) {
        mine.push_back(IdentityRegister{"list " + std::to_string(i)}.at(1));
        mine.emplace_back();
      }
    });
  for (std::thread& t : all) t.join();
  for (int i = 0; i < 2 * names; ++i) {
    const auto at = static_cast<std::size_t>(i);
    const bool listed = i % 2 == 0;
    EXPECT_EQ(found[0][at] == found[1][at], listed) << i;
    EXPECT_EQ(found[2][at] == found[3][at], listed) << i;
  }
}

}  // namespace
}  // namespace areo
