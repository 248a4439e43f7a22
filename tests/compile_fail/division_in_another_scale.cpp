// SPDX-License-Identifier: GPL-3.0-or-later
// The division of a stem is a step of its own scale.
#include "areo/front/instruments.hpp"
#include "areo/front/literals.hpp"

using namespace areo;

const Hydrometer<Gravity> fine{.division = 1.002_sg - 1.000_sg};
#ifdef AREO_EXPECT_FAIL
const Hydrometer<Gravity> bad{.division = 1_plato - 0.5_plato};
#endif
