// SPDX-License-Identifier: GPL-3.0-or-later
// Specific gravities of different reference temperatures may not be compared.
#include "areo/core/scales.hpp"

using namespace areo;

constexpr bool fine = SpecificGravity<Ref20_20>{1.04} < SpecificGravity<Ref20_20>{1.05};
#ifdef AREO_EXPECT_FAIL
bool bad = SpecificGravity<Ref20_20>{1.04} < SpecificGravity<Ref60F>{1.05};
#endif
