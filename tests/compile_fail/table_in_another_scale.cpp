// SPDX-License-Identifier: GPL-3.0-or-later
// An entry of a stem's table is a mark of its own scale.
#include "areo/front/jobs.hpp"
#include "areo/front/literals.hpp"

using namespace areo;

auto entry(const Hydrometer<Gravity>& stem) {
#ifdef AREO_EXPECT_FAIL
  (void)temperature_correction(stem, 12_plato, 30_degC);
#endif
  return temperature_correction(stem, 1.048_sg, 30_degC);
}
