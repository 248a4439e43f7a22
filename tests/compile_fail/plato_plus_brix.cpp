// SPDX-License-Identifier: GPL-3.0-or-later
// Percent by mass of two trades may not be added.
#include "areo/core/scales.hpp"

using namespace areo;

constexpr auto fine = Plato{12} - Plato{2};
#ifdef AREO_EXPECT_FAIL
auto bad = Plato{12} + Brix{2};
#endif
