// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/wording/quantity_lines.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "areo/text/format.hpp"

namespace areo::wording {

std::vector<std::string> quantity_lines(const std::vector<measurement::Quantity>& quantities,
                                        bool full) {
  return quantity_lines(quantities, [full](const measurement::Quantity& q) {
    return text::value_text(q.value, q.unit, full);
  });
}

std::vector<std::string> quantity_lines(
    const std::vector<measurement::Quantity>& quantities,
    const std::function<std::string(const measurement::Quantity&)>& text) {
  std::size_t width = 0;
  for (const auto& q : quantities) width = std::max(width, text::display_width(q.name));
  std::vector<std::string> all;
  all.reserve(quantities.size());
  for (const auto& q : quantities)
    all.push_back(fmt::format("  {:<{}}  {}", q.name, width, text(q)));
  return all;
}

}  // namespace areo::wording
