// SPDX-License-Identifier: GPL-3.0-or-later
// A mass says its unit; no number is taken for grams.
#include "areo/front/calibrate.hpp"
#include "areo/front/literals.hpp"

using namespace areo;

const SugarAndWater in_grams{.sugar = 50_g, .water = 450_g};
const SugarAndWater in_kilograms{.sugar = 0.05_kg, .water = 0.45_kg};
#ifdef AREO_EXPECT_FAIL
const SugarAndWater of_numbers{.sugar = 0.05, .water = 0.45};
#endif
