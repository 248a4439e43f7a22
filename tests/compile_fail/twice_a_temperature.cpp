// SPDX-License-Identifier: GPL-3.0-or-later
// Twice 20 °C is neither 40 °C nor 313 °C.
#include "areo/core/scales.hpp"

using namespace areo;

const auto fine = 2.0 * (celsius_point(20) - celsius_point(10));
#ifdef AREO_EXPECT_FAIL
const auto bad = 2.0 * celsius_point(20);
#endif
