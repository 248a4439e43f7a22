// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// A plot of readings against time in characters, for a terminal.
#include <functional>
#include <string>
#include <vector>

namespace areo::document {

/// A reading with its expanded uncertainty; all finite, `expanded` not below zero.
struct PlotPoint {
  double x = 0, y = 0, expanded = 0;
};

struct Plot {
  std::vector<PlotPoint> points;          ///< at least one
  std::function<double(double)> curve{};  ///< through them; may be empty, or NaN where it is not
  std::function<std::string(double)> x_label;
  std::function<std::string(double)> y_label;
};

/// Lines of a plot: `o` a reading, `|` its uncertainty, `.` the curve; a reading hides what lies
/// behind it. The labels of x stand below its ends and its middle, where there is room.
/// @param width,height  of the field without labels, in characters, 10 and 3 at least
/// @throws Error{domain} for no points, those that are not finite, or a smaller field
[[nodiscard]] std::vector<std::string> text_plot(const Plot& plot, std::size_t width = 64,
                                                 std::size_t height = 16);

}  // namespace areo::document
