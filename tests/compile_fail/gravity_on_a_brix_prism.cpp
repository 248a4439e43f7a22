// SPDX-License-Identifier: GPL-3.0-or-later
// A prism that shows Brix shows no gravity.
#include "areo/front/instruments.hpp"
#include "areo/front/literals.hpp"

using namespace areo;

void read_it(const Refractometer<Brix>& prism) {
  (void)prism.read(6.8_brix, 21_degC);
#ifdef AREO_EXPECT_FAIL
  (void)prism.read(1.027_sg, 21_degC);
#endif
}
