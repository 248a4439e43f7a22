// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// What a new calibration changes of what was read before.
#include <string>
#include <vector>

#include "areo/notebook/store.hpp"

namespace areo::wording {

/// What a new calibration changes: a line for each batch, liquid and instrument.
[[nodiscard]] std::vector<std::string> changes_lines(const std::vector<notebook::ReadWith>& all);

}  // namespace areo::wording
