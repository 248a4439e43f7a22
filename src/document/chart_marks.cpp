// SPDX-License-Identifier: GPL-3.0-or-later
#include "chart_marks.hpp"

#include <fmt/format.h>

#include "areo/text/format.hpp"
#include "chart_words.hpp"

namespace areo::document {
namespace {

// Blue, vermilion and green of a palette for all kinds of colour vision [okabe2008]. Each has a
// contrast of 3 or more to white and to the dark page, as shapes need it; text is never in them.
constexpr const char* blue = "#0072B2";
constexpr const char* orange = "#D55E00";
constexpr const char* green = "#009E73";

struct LineStyle {
  const char *name, *color, *dashes;
};

LineStyle style_of(Line kind) {
  switch (kind) {
    case Line::curve: return {"curve", blue, ""};
    case Line::level: return {"level", orange, " stroke-dasharray=\"7 4\""};
    case Line::event: return {"event", green, " stroke-dasharray=\"8 3 2 3\""};
  }
  return {"", "", ""};
}

}  // namespace

std::string coordinate(double v) { return text::fixed(v, 1); }

std::string text_at(double x, double y, std::string_view text, std::string_view anchor) {
  const std::string anchored = anchor == "start" ? "" : fmt::format(" text-anchor=\"{}\"", anchor);
  return fmt::format("<text x=\"{}\" y=\"{}\"{}>{}</text>\n", coordinate(x), coordinate(y),
                     anchored, xml_text(text));
}

std::string line_along(Line kind, std::string_view path) {
  const LineStyle s = style_of(kind);
  return fmt::format(
      "<path class=\"{}\" d=\"{}\" fill=\"none\" stroke=\"{}\" stroke-width=\"2\"{}/>\n", s.name,
      path, s.color, s.dashes);
}

std::string across(double left, double right, double y) {
  return fmt::format("M{} {}H{}", coordinate(left), coordinate(y), coordinate(right));
}

std::string marker(double x, double y, bool odd, bool crowd) {
  if (!odd)
    return fmt::format("<circle cx=\"{}\" cy=\"{}\" r=\"{}\"/>\n", coordinate(x), coordinate(y),
                       crowd ? "1.6" : "3");
  // Its centre of mass is at y.
  return fmt::format(
      "<path class=\"odd\" d=\"M{} {}l5.2 9h-10.4z\" fill=\"none\" stroke=\"{}\" "
      "stroke-width=\"2\"/>\n",
      coordinate(x), coordinate(y - 6), orange);
}

std::string bar(double x, double top, double bottom) {
  return fmt::format("M{} {}h6m-3 0V{}m-3 0h6", coordinate(x - 3), coordinate(bottom),
                     coordinate(top));
}

std::string bars_along(std::string_view path, bool odd, bool crowd) {
  if (path.empty()) return "";
  return fmt::format("<path class=\"bars\" d=\"{}\" fill=\"none\" stroke=\"{}\"{}/>\n", path,
                     odd ? orange : "currentColor", crowd ? " stroke-opacity=\"0.35\"" : "");
}

}  // namespace areo::document
