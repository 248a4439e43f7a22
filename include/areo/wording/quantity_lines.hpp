// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Quantities in columns: name, value, unit.
#include <functional>
#include <string>
#include <vector>

#include "areo/measurement/result.hpp"

namespace areo::wording {

/// A line each, with its value ± U.
[[nodiscard]] std::vector<std::string> quantity_lines(
    const std::vector<measurement::Quantity>& quantities, bool full);
/// The same with another text for the value.
[[nodiscard]] std::vector<std::string> quantity_lines(
    const std::vector<measurement::Quantity>& quantities,
    const std::function<std::string(const measurement::Quantity&)>& text);

}  // namespace areo::wording
