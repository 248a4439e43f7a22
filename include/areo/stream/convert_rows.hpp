// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Rows of values on any scale, converted.
#include <vector>

#include "areo/physics/scale.hpp"
#include "areo/stream/stream.hpp"

namespace areo::stream {

/// @param to  scales to print; all that areo offers, and strengths, if empty
[[nodiscard]] StreamJob convert_rows(const std::vector<physics::Scale>& to);

}  // namespace areo::stream
