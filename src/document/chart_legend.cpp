// SPDX-License-Identifier: GPL-3.0-or-later
#include "chart_legend.hpp"

#include <algorithm>

#include "chart_words.hpp"

namespace areo::document {

Legend legend_of(const std::vector<LegendEntry>& entries, double left, double right) {
  constexpr double mark_gap = 6, entry_gap = 18;
  constexpr std::size_t most_lines = 3;
  Legend all;
  double x = left, row_height = 0;
  for (const LegendEntry& e : entries) {
    PlacedEntry placed{e.mark, e.bars, x, all.height,
                       wrapped_text(e.title, right - left - mark_width - mark_gap, most_lines)};
    double width = 0;
    for (const std::string& line : placed.lines) width = std::max(width, text_width(line));
    width += mark_width + mark_gap;
    if (x > left && x + width > right) {
      all.height += row_height;
      placed.x = x = left;
      placed.y = all.height;
      row_height = 0;
    }
    x += width + entry_gap;
    row_height = std::max(row_height, line_height * static_cast<double>(placed.lines.size()));
    all.entries.push_back(std::move(placed));
  }
  all.height += row_height;
  return all;
}

}  // namespace areo::document
