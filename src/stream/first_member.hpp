// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
#include <string_view>

namespace areo::stream {

/// Whether a text begins with an object whose first member has this name, however an editor set its
/// spaces.
[[nodiscard]] bool begins_with_member(std::string_view text, std::string_view name);

}  // namespace areo::stream
