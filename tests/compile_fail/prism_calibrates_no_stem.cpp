// SPDX-License-Identifier: GPL-3.0-or-later
// The checks of one kind of instrument are none of another.
#include "areo/front/calibrate.hpp"
#include "areo/front/literals.hpp"

using namespace areo;

auto calibrated(const Hydrometer<Gravity>& stem, const Refractometer<Brix>& prism) {
  (void)prism;
#ifdef AREO_EXPECT_FAIL
  (void)calibrate(stem, {in_water(prism.read(0.2_brix, 20_degC))});
#endif
  return calibrate(stem, {in_water(stem.read(1.001_sg, 20_degC))});
}
