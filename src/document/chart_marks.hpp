// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// What a chart is drawn with, as elements of SVG.
#include <string>
#include <string_view>

namespace areo::document {

enum class Line { curve, level, event };

/// A coordinate, to tenths of a unit.
[[nodiscard]] std::string coordinate(double v);
/// @param anchor  "start", "middle" or "end": which part of the text is at x
[[nodiscard]] std::string text_at(double x, double y, std::string_view text,
                                  std::string_view anchor = "start");
/// Each kind of line has its own colour and its own dashes.
[[nodiscard]] std::string line_along(Line kind, std::string_view path);
[[nodiscard]] std::string across(double left, double right, double y);
/// Of a point; in a crowd it is small.
[[nodiscard]] std::string marker(double x, double y, bool odd, bool crowd = false);
/// The path of a bar of uncertainty with its ends.
[[nodiscard]] std::string bar(double x, double top, double bottom);
/// @param path  of bars; nothing for none
[[nodiscard]] std::string bars_along(std::string_view path, bool odd, bool crowd = false);

}  // namespace areo::document
