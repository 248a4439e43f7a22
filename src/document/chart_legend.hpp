// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// What the marks of a chart mean, below its plot.
#include <string>
#include <vector>

namespace areo::document {

enum class Mark { dot, triangle, curve, level, event };

struct LegendEntry {
  Mark mark;
  std::string title;
  bool bars;  ///< of uncertainty, on a dot or a triangle
};

struct PlacedEntry {
  Mark mark;
  bool bars;
  double x = 0, y = 0;  ///< of the mark's left end; the text's base line is below y
  std::vector<std::string> lines;
};

struct Legend {
  std::vector<PlacedEntry> entries;
  double height = 0;
};

inline constexpr double mark_width = 26;
/// Entries beside and below each other, from (left, 0) down. Long titles are broken into lines.
[[nodiscard]] Legend legend_of(const std::vector<LegendEntry>& entries, double left, double right);

}  // namespace areo::document
