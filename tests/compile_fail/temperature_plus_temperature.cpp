// SPDX-License-Identifier: GPL-3.0-or-later
// 20 °C + 20 °C means nothing.
#include "areo/core/scales.hpp"

using namespace areo;

const auto fine = celsius_point(20) + celsius_delta(20);
#ifdef AREO_EXPECT_FAIL
const auto bad = celsius_point(20) + celsius_point(20);
#endif
