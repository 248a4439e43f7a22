// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// The titles of a chart's events, above the plot.
#include <string>
#include <utility>
#include <vector>

namespace areo::document {

/// A title on the pole that marks its event.
struct Flag {
  double pole = 0;
  std::string text;   ///< none on a pole whose number stands with the one before
  double text_x = 0;  ///< where the text begins, or where it ends
  bool ends = false;
  std::size_t row = 0;  ///< from below
};

struct Flags {
  std::vector<Flag> flags;  ///< from left to right
  std::size_t rows = 0;
  /// If the titles have no room above the plot, numbers stand there, and here is what they mean:
  /// "1: sugar, 100g". Then no pole leaves the plot.
  std::vector<std::string> legend;
};

/// No text touches another one or a pole.
/// @param events      titles, and where on the chart
/// @param left,right  the room for texts
[[nodiscard]] Flags flags_of(std::vector<std::pair<std::string, double>> events, double left,
                             double right);

}  // namespace areo::document
