// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// The settings of a notebook in words.
#include <string>
#include <vector>

#include "areo/notebook/settings.hpp"

namespace areo::wording {

/// One line a setting, and what it does: "  temperature  °F".
[[nodiscard]] std::vector<std::string> settings_lines(const notebook::Settings& settings);
/// {"temperature":"F","mass":null,...}
[[nodiscard]] std::string settings_json(const notebook::Settings& settings);

}  // namespace areo::wording
