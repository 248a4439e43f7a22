// SPDX-License-Identifier: GPL-3.0-or-later
// A temperature says its scale; no number is taken for °C.
#include "areo/front/instruments.hpp"
#include "areo/front/literals.hpp"

using namespace areo;

void read_it(const Hydrometer<Gravity>& stem) {
  (void)stem.read(1.048_sg, 68_degF);
  (void)stem.read(1.048_sg, fahrenheit(68));
#ifdef AREO_EXPECT_FAIL
  (void)stem.read(1.048_sg, 68);
#endif
}
