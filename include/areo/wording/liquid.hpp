// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// How the extract of a liquid refracts, in words.
#include <optional>
#include <string>
#include <vector>

#include "areo/calibration/liquid_factor.hpp"

namespace areo::wording {

/// "1.02 ± 0.03"
[[nodiscard]] std::string factor_text(const calibration::LiquidFactor& factor);
/// With whether its pairs agree, and what has to be known.
[[nodiscard]] std::vector<std::string> factor_lines(const std::string& liquid,
                                                    const calibration::LiquidFactor& factor);
/// @param factor  nothing where all pairs of the liquid are left out
[[nodiscard]] std::string factor_json(const std::string& liquid,
                                      const std::optional<calibration::LiquidFactor>& factor);

}  // namespace areo::wording
