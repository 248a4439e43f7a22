// SPDX-License-Identifier: GPL-3.0-or-later
// A plain number is not a reading.
#include "areo/core/scales.hpp"

using namespace areo;

areo::Plato fine{12.5};
#ifdef AREO_EXPECT_FAIL
areo::Plato bad = 12.5;
#endif
