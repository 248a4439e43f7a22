// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// What is lost where somebody notes nothing but whole divisions of a hydrometer's stem.
#include <string_view>

#include "areo/measurement/result.hpp"

namespace areo::analysis {

/// Standard uncertainty that one quantity gets by it: its readings lie within half a division of
/// what the eye saw, all places alike. Readings with a width of their own are not counted, as that
/// holds it.
/// @throws Error{domain} if the result has no such quantity
[[nodiscard]] double rounding(const measurement::Result& r, std::string_view key);

/// The same result with an input for the rounding of each such reading. The standard uncertainties
/// of its quantities stay as they are: only differences (difference.hpp) hold it.
[[nodiscard]] measurement::Result with_rounding(measurement::Result r);

}  // namespace areo::analysis
