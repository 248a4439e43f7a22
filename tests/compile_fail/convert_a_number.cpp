// SPDX-License-Identifier: GPL-3.0-or-later
// A number without a scale is converted to nothing.
#include "areo/front/jobs.hpp"
#include "areo/front/literals.hpp"

using namespace areo;

const auto fine = convert<Plato>(1.048_sg);
#ifdef AREO_EXPECT_FAIL
const auto bad = convert<Plato>(1.048);
#endif
