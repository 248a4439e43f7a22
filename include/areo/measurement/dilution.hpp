// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// How much water or sugar brings a sugar liquid from one mark to another.
#include "areo/measurement/result.hpp"
#include "areo/physics/scale.hpp"

namespace areo::measurement {

/// Water that brings a litre of an unfermented liquid from mark `from` down to `to`. The sugar
/// stays what it is: the extract of both is enough. Volumes do not add up, so masses are balanced.
/// Quantities: water_g_per_l, the mass of it (a litre of water is 998 g at 20 °C); volume_l, what
/// the litre has become at 20 °C.
/// @throws Error{domain} unless 0 < extract of `to` <= extract of `from`
[[nodiscard]] Result water_to_add(const physics::Scale& scale, double from, double to);

/// White sugar (calibration::white_sugar) that brings a litre of an unfermented liquid from mark
/// `from` up to `to`. Quantities: sugar_g_per_l, as weighed; volume_l as above.
/// @throws Error{domain} unless the extract of `from` is zero or more, and `to` not below it
[[nodiscard]] Result sugar_to_add(const physics::Scale& scale, double from, double to);

}  // namespace areo::measurement
