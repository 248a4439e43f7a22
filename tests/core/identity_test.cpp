#include "areo/core/identity.hpp"

#include <gtest/gtest.h>

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

}  // namespace
}  // namespace areo
