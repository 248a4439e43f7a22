// SPDX-License-Identifier: GPL-3.0-or-later
// Different dimensions do not add.
#include "areo/core/scales.hpp"

using namespace areo;

const auto fine = kg_per_m3(998) + kg_per_m3(2);
#ifdef AREO_EXPECT_FAIL
const auto bad = kg_per_m3(998) + celsius_point(20);
#endif
