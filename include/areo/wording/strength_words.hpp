// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// What is said of a strength, by the readings behind it.
#include "areo/ferment/culture.hpp"
#include "areo/wording/strength.hpp"

namespace areo::wording {

/// Of two gravities, or of one and weighed sugar.
[[nodiscard]] StrengthWords gravity_words(bool weighed, ferment::Culture culture);
/// Of a refraction against the original one.
[[nodiscard]] StrengthWords fermenting_words(ferment::Culture culture);
/// Of a refraction and a gravity of one sample.
[[nodiscard]] const StrengthWords& paired_words();

}  // namespace areo::wording
