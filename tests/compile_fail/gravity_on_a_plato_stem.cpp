// SPDX-License-Identifier: GPL-3.0-or-later
// A stem that shows Plato shows no gravity.
#include "areo/front/instruments.hpp"
#include "areo/front/literals.hpp"

using namespace areo;

void read_it(const Hydrometer<Plato>& stem) {
  (void)stem.read(12.5_plato, 20_degC);
#ifdef AREO_EXPECT_FAIL
  (void)stem.read(1.048_sg, 20_degC);
#endif
}
