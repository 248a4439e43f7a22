// SPDX-License-Identifier: GPL-3.0-or-later
// A strength by volume and one by mass have no difference, and no sum.
#include "areo/front/drink.hpp"

using namespace areo;

auto compare(const Drink& a, const Drink& b) {
#ifdef AREO_EXPECT_FAIL
  (void)(a.strength + b.strength_by_mass);
#endif
  return a.strength - b.strength;
}
