// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Results for programs: one JSON object on one line, stable keys with units, numbers unrounded.
#include <string>
#include <utility>
#include <vector>

#include "areo/analysis/sampled.hpp"
#include "areo/measurement/result.hpp"

namespace areo::wording {

/// {"<key>": {"value", "standard_uncertainty", "expanded_uncertainty", "unit"}, ..., "notes": []}.
/// The schema is in docs/reference/json.md. Bytes that are not valid UTF-8 become U+FFFD.
/// @param head  pairs that come first, already JSON: {{"state", "\"measured\""}}
[[nodiscard]] std::string json_line(
    const measurement::Result& result,
    const std::vector<std::pair<std::string, std::string>>& head = {});

/// The second evaluation of a result as a JSON object, a member for each quantity under its key.
[[nodiscard]] std::string sampling_json(const measurement::Result& result,
                                        const analysis::Sampled& sampled);

}  // namespace areo::wording
