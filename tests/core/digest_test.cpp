// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/core/digest.hpp"

#include <gtest/gtest.h>

#include <set>

namespace areo {
namespace {

// The values that go with the published algorithm.
TEST(Digest, IsFnv1a) {
  EXPECT_EQ(fnv1a(""), 0xcbf29ce484222325);
  EXPECT_EQ(fnv1a("a"), 0xaf63dc4c8601ec8c);
  EXPECT_EQ(fnv1a("foobar"), 0x85944171f73967e8);
}

// The upper 16 bits of the published value, cbf2, folded onto the lowest: 2325 ^ cbf2 = e8d7.
TEST(Digest, IsShortAndFolded) { EXPECT_EQ(short_digest(""), "9ce48422e8d7"); }

TEST(Digest, TellsSlipsApart) {
  std::set<std::string> all;
  std::string text = "stem-1 shows 1.001, it should show 0.99981 ± 0.00011";
  all.insert(short_digest(text));
  for (std::size_t i = 0; i < text.size(); ++i)
    for (int bit = 0; bit < 8; ++bit) {
      std::string slip = text;
      slip[i] = static_cast<char>(static_cast<unsigned char>(slip[i]) ^ (1U << bit));
      all.insert(short_digest(slip));
    }
  EXPECT_EQ(all.size(), 8 * text.size() + 1);
  EXPECT_NE(short_digest(std::string(1, '\0')), short_digest(""));
}

}  // namespace
}  // namespace areo
