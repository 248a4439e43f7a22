// SPDX-License-Identifier: GPL-3.0-or-later
// A function of Plato does not take Brix; the way is through the extract fraction.
#include "areo/core/scales.hpp"

using namespace areo;

double gravity(Plato p);
const double fine = gravity(plato(extract_fraction(Brix{12})));
#ifdef AREO_EXPECT_FAIL
const double bad = gravity(Brix{12});
#endif
