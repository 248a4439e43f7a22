// SPDX-License-Identifier: GPL-3.0-or-later
// The same with a minus.
#include "areo/front/drink.hpp"

using namespace areo;

auto compare(const Drink& a, const Drink& b) {
#ifdef AREO_EXPECT_FAIL
  (void)(a.strength - b.strength_by_mass);
#endif
  return a.strength_by_mass - b.strength_by_mass;
}
