// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/document/plot.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "areo/core/error.hpp"
#include "areo/text/format.hpp"

namespace areo::document {
namespace {

// A span of values along a row or column of cells.
struct Axis {
  double lo = std::numeric_limits<double>::infinity(), hi = -lo;
  std::size_t cells = 1;

  void take(double v) {
    lo = std::min(lo, v);
    hi = std::max(hi, v);
  }
  // One value alone lies in the middle.
  void widen() {
    if (hi > lo) return;
    const double half = lo == 0 ? 1 : 0.01 * std::abs(lo);
    lo -= half;
    hi += half;
  }
  [[nodiscard]] double step() const { return (hi - lo) / static_cast<double>(cells - 1); }
  [[nodiscard]] std::size_t cell(double v) const {
    const double at = std::round((v - lo) / step());
    return static_cast<std::size_t>(std::clamp(at, 0.0, static_cast<double>(cells - 1)));
  }
  [[nodiscard]] double value(std::size_t cell) const {
    return lo + step() * static_cast<double>(cell);
  }
};

void require(const Plot& plot, std::size_t width, std::size_t height) {
  const bool finite = std::all_of(plot.points.begin(), plot.points.end(), [](const PlotPoint& p) {
    return std::isfinite(p.x) && std::isfinite(p.y) && std::isfinite(p.expanded) && p.expanded >= 0;
  });
  if (plot.points.empty() || !finite || width < 10 || height < 3)
    throw Error{Errc::domain, "a plot needs finite points and a field of 10 by 3 or more"};
}

// Row 0 is the lowest.
std::vector<std::string> field_of(const Plot& plot, const Axis& x, const Axis& y) {
  std::vector<std::string> field(y.cells, std::string(x.cells, ' '));
  if (plot.curve)
    for (std::size_t i = 0; i < x.cells; ++i)
      if (const double v = plot.curve(x.value(i)); v >= y.lo && v <= y.hi)
        field[y.cell(v)][i] = '.';
  for (const PlotPoint& p : plot.points)
    for (std::size_t row = y.cell(p.y - p.expanded); row <= y.cell(p.y + p.expanded); ++row)
      field[row][x.cell(p.x)] = '|';
  for (const PlotPoint& p : plot.points) field[y.cell(p.y)][x.cell(p.x)] = 'o';
  return field;
}

// Labels below their places, left out where they would touch the one before.
std::string label_line(const Plot& plot, const Axis& x) {
  std::string out;
  std::size_t end = 0;
  for (const std::size_t cell : {std::size_t{0}, x.cells / 2, x.cells - 1}) {
    const std::string label = plot.x_label(x.value(cell));
    const std::size_t width = text::display_width(label);
    const std::size_t begin = std::min(cell, x.cells > width ? x.cells - width : 0);
    if (cell > 0 && begin < end + 2) continue;
    out += std::string(begin - end, ' ') + label;
    end = begin + width;
  }
  return out;
}

}  // namespace

std::vector<std::string> text_plot(const Plot& plot, std::size_t width, std::size_t height) {
  require(plot, width, height);
  Axis x, y;
  x.cells = width;
  y.cells = height;
  for (const PlotPoint& p : plot.points) {
    x.take(p.x);
    y.take(p.y - p.expanded);
    y.take(p.y + p.expanded);
  }
  x.widen();
  y.widen();
  const std::vector<std::string> field = field_of(plot, x, y);
  std::vector<std::string> labels(height);
  for (const std::size_t row : {std::size_t{0}, height / 2, height - 1})
    labels[row] = plot.y_label(y.value(row));
  std::size_t margin = 0;
  for (const std::string& label : labels) margin = std::max(margin, text::display_width(label));
  std::vector<std::string> lines;
  for (std::size_t row = height; row-- > 0;) {
    const std::string pad(margin - text::display_width(labels[row]), ' ');
    std::string text = pad + labels[row] + (labels[row].empty() ? "  " : " +") + field[row];
    text.erase(text.find_last_not_of(' ') + 1);
    lines.push_back(std::move(text));
  }
  lines.push_back(std::string(margin + 2, ' ') + label_line(plot, x));
  return lines;
}

}  // namespace areo::document
