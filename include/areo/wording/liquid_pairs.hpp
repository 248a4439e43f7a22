// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// The pairs of readings of a liquid, and what they say of its extract.
#include <optional>
#include <string>
#include <vector>

#include "areo/calibration/liquid_factor.hpp"
#include "areo/notebook/store.hpp"

namespace areo::wording {

/// Nothing if all pairs are left out: then there are pairs, and no factor.
/// @throws as notebook::liquid_factor()
[[nodiscard]] std::optional<calibration::LiquidFactor> factor_of(const notebook::Notebook& book,
                                                                 const std::string& liquid);
/// factor_lines(), or that there is none.
[[nodiscard]] std::vector<std::string> known_factor_lines(
    const std::string& liquid, const std::optional<calibration::LiquidFactor>& factor);
/// Each pair with what it says by itself, or why it is left out.
/// @param factor  as factor_of()
[[nodiscard]] std::vector<std::string> pair_lines(
    const notebook::Notebook& book, const std::string& liquid,
    const std::optional<calibration::LiquidFactor>& factor);

}  // namespace areo::wording
