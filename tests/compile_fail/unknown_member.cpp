// SPDX-License-Identifier: GPL-3.0-or-later
// What a drink has is known to the compiler.
#include <iostream>

#include "areo/front/drink.hpp"

using namespace areo;

void print(const Drink& drink) {
  std::cout << drink.real_extract;
#ifdef AREO_EXPECT_FAIL
  std::cout << drink.reel_extract;
#endif
}
