// SPDX-License-Identifier: GPL-3.0-or-later
// Original and present are named, so that they cannot be swapped by position.
#include "areo/front/drink.hpp"

using namespace areo;

Drink drink_of(const SampleReading& original, const SampleReading& present) {
#ifdef AREO_EXPECT_FAIL
  return alcohol({present, original});
#endif
  return alcohol({.original = original, .present = present});
}
