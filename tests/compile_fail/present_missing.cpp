// SPDX-License-Identifier: GPL-3.0-or-later
// A ferment has both readings.
#include "areo/front/drink.hpp"

using namespace areo;

Drink drink_of(const SampleReading& original, const SampleReading& present) {
  const Ferment both{.original = original, .present = present};
#ifdef AREO_EXPECT_FAIL
  const Ferment one{.original = original};
#endif
  return alcohol(both);
}
