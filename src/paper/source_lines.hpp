// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// What computed a table, and by which models: for its foot.
#include <string>
#include <vector>

namespace areo::paper {

/// @return "computed by areo 0.1.0" and the models
[[nodiscard]] std::vector<std::string> source_lines(std::vector<std::string> models);

}  // namespace areo::paper
