// SPDX-License-Identifier: GPL-3.0-or-later
#include "source_lines.hpp"

#include <fmt/format.h>

#include "areo/core/version.hpp"

namespace areo::paper {

std::vector<std::string> source_lines(std::vector<std::string> models) {
  models.insert(models.begin(), fmt::format("computed by areo {}", version));
  return models;
}

}  // namespace areo::paper
