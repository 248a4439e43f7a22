// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Reads a chart's SVG as far as the tests ask for it; for the form that svg_of() writes.
#include <cstddef>
#include <string>
#include <vector>

namespace areo::document {

struct Place {
  double x = 0, y = 0;
};

struct DrawnText {
  std::string text;  ///< with markup escaped
  double left = 0, right = 0, top = 0, bottom = 0;
};

/// A vertical line.
struct Pole {
  double x = 0, top = 0, bottom = 0;
};

struct Drawn {
  double width = 0, height = 0;
  double left = 0, top = 0, bottom = 0, right = 0;  ///< of the plot
  std::vector<Place> dots, triangles;               ///< without those of the legend
  std::vector<Pole> bars, events;
  std::vector<double> levels;  ///< y
  std::vector<DrawnText> texts;
  double legend_top = 0;
  std::string title;

  /// The text's place; fails the test if it is not there once.
  [[nodiscard]] DrawnText at(const std::string& text) const;
  [[nodiscard]] bool has(const std::string& text) const;
  /// Where a value lies between two that the axis is known to begin and end with.
  [[nodiscard]] double x_of(double value, double lo, double hi) const;
  [[nodiscard]] double y_of(double value, double lo, double hi) const;
};

/// Fails the test where tags are not closed, or a number is none.
[[nodiscard]] Drawn drawn(const std::string& svg);
/// What must not be: texts that touch each other, a line through a text, anything outside.
[[nodiscard]] std::vector<std::string> faults_of(const Drawn& d);

}  // namespace areo::document
