// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Pictures of values with their uncertainty.
#include <string>
#include <utility>
#include <vector>

#include "areo/document/plot.hpp"

namespace areo::document {

enum class PictureFormat { svg, pdf };

/// Values over x with their expanded uncertainty. No meaning rests on colour alone: each kind has
/// its own shape or dashes too, and colour-blind readers can tell the colours apart.
struct Chart {
  struct Points {
    std::string title;
    std::vector<PlotPoint> points;  ///< finite
    bool odd = false;               ///< open triangles instead of dots
  };
  struct Curve {
    std::string title;
    std::vector<PlotPoint> points;  ///< finite
  };
  std::string title{};  ///< what it shows, for those who do not see it; of the axes if empty
  std::string x_title;  ///< empty for dates, which need none
  std::string y_title;
  /// x are seconds since 1970 of the wall clock, and dates stand below them.
  bool time = false;
  bool from_zero = false;              ///< y begins at zero, or below it
  int x_decimals = 3, y_decimals = 3;  ///< of the numbers at the axes
  std::vector<Points> points;          ///< at least one, each with at least one point
  std::vector<Curve> curves{};
  std::vector<std::pair<std::string, double>> levels{};  ///< horizontal lines: title and y
  std::vector<std::pair<std::string, double>> events{};  ///< vertical lines: title and x
};

/// A drawing of SVG 1.1 that scales with its place, in the colour of the text around it, and black
/// where there is none.
/// @throws Error{domain} for a chart without points, or values that are not finite, or for a date
///         that has no year of four digits
[[nodiscard]] std::string svg_of(const Chart& chart);

/// By the end of a file's name: ".svg", ".pdf".
/// @throws Error{domain} for another one
[[nodiscard]] PictureFormat picture_format(const std::string& file);

}  // namespace areo::document
