// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "areo/core/error.hpp"
#include "areo/document/chart.hpp"
#include "areo/text/format.hpp"
#include "chart_axis.hpp"
#include "chart_flags.hpp"
#include "chart_legend.hpp"
#include "chart_marks.hpp"
#include "chart_words.hpp"

namespace areo::document {
namespace {

// Narrow, so that a phone's screen leaves its text legible.
constexpr double width = 440, plot_height = 200;
constexpr double right_margin = 26;  // half of the last label
constexpr double edge = 4;
constexpr double tick_length = 5;
constexpr double label_gap = 4;    // between a tick and its label below
constexpr double ascent = 10;      // of letters, above their base line
constexpr double head_gap = 8;     // between what stands above the plot and the plot
constexpr std::size_t crowd = 60;  // so many points hide each other and the curve

// In the middle of x, but within the chart.
std::string centred_text(double x, double y, std::string_view text) {
  const double half = text_width(text) / 2 + edge;
  return text_at(std::clamp(x, half, std::max(half, width - half)), y, text, "middle");
}

void require(bool good) {
  if (!good) throw Error{Errc::domain, "a chart needs points, and finite values"};
}

// Beyond it, differences may be no numbers any more.
bool usable(double v) { return std::abs(v) < 1e100; }

void take(Span& x, Span& y, const std::vector<PlotPoint>& points) {
  require(!points.empty());
  for (const PlotPoint& p : points) {
    require(usable(p.x) && usable(p.y) && usable(p.expanded) && p.expanded >= 0);
    x.take(p.x);
    y.take(p.y - p.expanded);
    y.take(p.y + p.expanded);
  }
}

struct Spans {
  Span x, y;
};

Spans spans_of(const Chart& chart) {
  require(!chart.points.empty() && !chart.points[0].points.empty());
  const PlotPoint& first = chart.points[0].points[0];
  Spans s{{first.x, first.x}, {first.y, first.y}};
  for (const Chart::Points& p : chart.points) take(s.x, s.y, p.points);
  for (const Chart::Curve& c : chart.curves) take(s.x, s.y, c.points);
  for (const auto& [title, y] : chart.levels) {
    require(usable(y));
    s.y.take(y);
  }
  for (const auto& [title, x] : chart.events) {
    require(usable(x));
    s.x.take(x);
  }
  if (chart.from_zero) s.y.lo = std::min(s.y.lo, 0.0);
  return s;
}

bool has_bars(const Chart::Points& all) {
  return std::any_of(all.points.begin(), all.points.end(),
                     [](const PlotPoint& p) { return p.expanded > 0; });
}

double widest(const std::vector<Tick>& ticks) {
  double out = 0;
  for (const Tick& t : ticks) out = std::max(out, text_width(t.label));
  return out;
}

// As many ticks as their labels have room.
Axis x_axis(const Chart& chart, const Span& span, double room) {
  if (chart.time) return time_axis(span);
  constexpr double apart = 14;
  int most = 8;
  Axis axis = axis_with_margin(span, chart.x_decimals, most);
  while (most > 1 && static_cast<double>(most) * (widest(axis.ticks) + apart) > room)
    axis = axis_with_margin(span, chart.x_decimals, --most);
  return axis;
}

class Drawing {
 public:
  explicit Drawing(const Chart& chart) : chart_{chart} {
    const auto [x, y] = spans_of(chart);
    y_ = axis_between_ticks(y, chart.y_decimals);
    left_ = edge + widest(y_.ticks) + tick_length + edge;
    x_ = x_axis(chart, x, right_ - left_);
    flags_ = flags_of(event_places(), edge, width - edge);
    if (!chart.y_title.empty()) y_title_ = wrapped_text(chart.y_title, width - 2 * edge, 2);
    top_ = edge + line_height * static_cast<double>(y_title_.size() + flags_.rows) + head_gap;
    bottom_ = top_ + plot_height;
  }

  std::string svg() {
    std::string body = axes() + levels() + poles() + points();
    double y = bottom_ + tick_length + label_gap + line_height;
    const auto dated = [](const Tick& t) { return !t.below.empty(); };
    if (std::any_of(x_.ticks.begin(), x_.ticks.end(), dated)) y += line_height;
    if (!chart_.x_title.empty()) {
      for (const std::string& line : wrapped_text(chart_.x_title, width - 2 * edge, 2)) {
        body += centred_text((left_ + right_) / 2, y + ascent, line);
        y += line_height;
      }
    }
    y += 8;
    const Legend legend = legend_of(legend_entries(), edge, width - edge);
    for (const PlacedEntry& e : legend.entries) body += entry(e, y);
    y += legend.height + edge;
    return fmt::format(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {} {}\" role=\"img\">\n"
        "<title>{}</title>\n<g font-family=\"system-ui, 'DejaVu Sans', sans-serif\" "
        "font-size=\"{}\" fill=\"currentColor\">\n{}</g>\n</svg>\n",
        width, text::fixed(std::ceil(y), 0), xml_text(title()), font_size, body);
  }

 private:
  [[nodiscard]] double px(double x) const {
    return left_ + (x - x_.lo) / (x_.hi - x_.lo) * (right_ - left_);
  }
  [[nodiscard]] double py(double y) const {
    return bottom_ - (y - y_.lo) / (y_.hi - y_.lo) * plot_height;
  }

  [[nodiscard]] std::string title() const {
    if (!chart_.title.empty()) return chart_.title;
    return chart_.y_title + (chart_.x_title.empty() ? "" : " against " + chart_.x_title);
  }

  [[nodiscard]] std::vector<std::pair<std::string, double>> event_places() const {
    auto events = chart_.events;
    for (auto& [title, x] : events) x = px(x);
    return events;
  }

  [[nodiscard]] std::string axes() const {
    std::string grid, ticks, labels;
    double y = edge + ascent + 2;
    for (const std::string& line : y_title_) {
      labels += text_at(edge, y, line);
      y += line_height;
    }
    for (const Tick& t : y_.ticks) {
      grid += fmt::format("M{} {}H{}", coordinate(left_), coordinate(py(t.at)), coordinate(right_));
      ticks += fmt::format("M{} {}h-{}", coordinate(left_), coordinate(py(t.at)), tick_length);
      labels += text_at(left_ - tick_length - 3, py(t.at) + 4.5, t.label, "end");
    }
    for (const Tick& t : x_.ticks) {
      ticks += fmt::format("M{} {}v{}", coordinate(px(t.at)), coordinate(bottom_), tick_length);
      const double base = bottom_ + tick_length + label_gap + ascent;
      labels += centred_text(px(t.at), base, t.label);
      if (!t.below.empty()) labels += centred_text(px(t.at), base + line_height, t.below);
    }
    return fmt::format(
        "<path class=\"grid\" d=\"{}\" stroke=\"currentColor\" stroke-opacity=\"0.2\"/>\n"
        "<path class=\"axes\" d=\"M{} {}V{}H{}{}\" fill=\"none\" stroke=\"currentColor\"/>\n{}",
        grid, coordinate(left_), coordinate(top_), coordinate(bottom_), coordinate(right_), ticks,
        labels);
  }

  [[nodiscard]] std::string levels() const {
    std::string out;
    for (const auto& [title, y] : chart_.levels)
      out += line_along(Line::level, across(left_, right_, py(y)));
    return out;
  }

  [[nodiscard]] std::string poles() const {
    std::string out;
    for (const Flag& f : flags_.flags) {
      const double base = top_ - head_gap - line_height * static_cast<double>(f.row);
      out += line_along(Line::event,
                        fmt::format("M{} {}V{}", coordinate(f.pole), coordinate(bottom_),
                                    coordinate(flags_.legend.empty() ? base - ascent : top_)));
      if (!f.text.empty()) out += text_at(f.text_x, base, f.text, f.ends ? "end" : "start");
    }
    return out;
  }

  [[nodiscard]] std::string curves() const {
    std::string out;
    for (const Chart::Curve& c : chart_.curves) {
      std::string path;
      for (const PlotPoint& p : c.points)
        path += fmt::format("{}{} {}", path.empty() ? "M" : " ", coordinate(px(p.x)),
                            coordinate(py(p.y)));
      out += line_along(Line::curve, path);
    }
    return out;
  }

  // Dots over curves over bars: each is seen.
  [[nodiscard]] std::string points() const {
    std::string all_bars, markers;
    for (const Chart::Points& all : chart_.points) {
      const bool many = all.points.size() > crowd;
      std::string path;
      for (const PlotPoint& p : all.points) {
        if (p.expanded > 0) path += bar(px(p.x), py(p.y + p.expanded), py(p.y - p.expanded));
        markers += marker(px(p.x), py(p.y), all.odd, many);
      }
      all_bars += bars_along(path, all.odd, many);
    }
    return all_bars + curves() + markers;
  }

  [[nodiscard]] std::vector<LegendEntry> legend_entries() const {
    std::vector<LegendEntry> all;
    for (const Chart::Points& p : chart_.points)
      all.push_back({p.odd ? Mark::triangle : Mark::dot, p.title, has_bars(p)});
    for (const Chart::Curve& c : chart_.curves) all.push_back({Mark::curve, c.title, false});
    for (const auto& [title, y] : chart_.levels) all.push_back({Mark::level, title, false});
    for (const std::string& title : flags_.legend) all.push_back({Mark::event, title, false});
    return all;
  }

  [[nodiscard]] std::string entry(const PlacedEntry& e, double top) const {
    const double y = top + e.y + line_height / 2, middle = e.x + mark_width / 2;
    const std::string sample = across(e.x, e.x + mark_width, y);
    std::string out;
    switch (e.mark) {
      case Mark::dot:
      case Mark::triangle: {
        const bool odd = e.mark == Mark::triangle;
        if (e.bars) out = bars_along(bar(middle, y - 6, y + 6), odd);
        out += marker(middle, y, odd);
        break;
      }
      case Mark::curve: out = line_along(Line::curve, sample); break;
      case Mark::level: out = line_along(Line::level, sample); break;
      case Mark::event: out = line_along(Line::event, sample); break;
    }
    double base = top + e.y + ascent + 2;
    for (const std::string& text : e.lines) {
      out += text_at(e.x + mark_width + 6, base, text);
      base += line_height;
    }
    return "<g class=\"legend\">" + out + "</g>\n";
  }

  const Chart& chart_;
  Axis x_, y_;
  Flags flags_;
  std::vector<std::string> y_title_;
  double left_ = 0, right_ = width - right_margin, top_ = 0, bottom_ = 0;
};

}  // namespace

std::string svg_of(const Chart& chart) { return Drawing{chart}.svg(); }

}  // namespace areo::document
