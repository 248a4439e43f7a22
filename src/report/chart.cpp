#include "areo/report/chart.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "areo/core/error.hpp"
#include "areo/text/format.hpp"

namespace areo::report {
namespace {

// Blue, orange, green, and greys, of a palette for all kinds of colour vision [okabe2008].
constexpr const char* blue = "#0072B2";
constexpr const char* orange = "#D55E00";
constexpr const char* green = "#006B50";  // darker than theirs, for text on white

// Of an SVG, in its own units: narrow, so that a phone's screen leaves its text legible.
constexpr int width = 600, height = 360;

// In single quotes gnuplot neither looks for commands nor for escapes; a quote is doubled.
std::string quoted(std::string_view text) {
  std::string out = "'";
  for (const char c : text::printable(text)) {
    out += c;
    if (c == '\'') out += c;
  }
  return out + "'";
}

std::string terminal(PictureFormat format) {
  constexpr int font = 14;
  switch (format) {
    case PictureFormat::svg:
      return fmt::format("set terminal svg size {},{} dynamic font 'sans-serif,{}' noenhanced\n",
                         width, height, font);
    case PictureFormat::png:
      return fmt::format(
          "set terminal pngcairo size {},{} font 'sans-serif,{}' fontscale 2 linewidth 2 "
          "pointscale 2 noenhanced\n",
          2 * width, 2 * height, font);
    case PictureFormat::pdf:
      return fmt::format(
          "set terminal pdfcairo size 19cm,{:.1f}cm font 'sans-serif,10' noenhanced\n",
          19.0 * height / width);
  }
  return "";
}

void require_finite(const std::vector<PlotPoint>& points) {
  const bool finite = std::all_of(points.begin(), points.end(), [](const PlotPoint& p) {
    return std::isfinite(p.x) && std::isfinite(p.y) && std::isfinite(p.expanded);
  });
  if (points.empty() || !finite) throw Error{Errc::domain, "a chart needs finite points"};
}

// Named data: "$d0 << EOD".
std::string block(std::size_t number, const std::vector<PlotPoint>& points) {
  std::string out = fmt::format("$d{} << EOD\n", number);
  for (const PlotPoint& p : points) out += fmt::format("{} {} {}\n", p.x, p.y, p.expanded);
  return out + "EOD\n";
}

constexpr double day_s = 86400;

// Some seven dates, at midnights where there are so many.
std::string dates(double days) {
  const double each = days / 7;
  double step = std::ceil(each);
  const char* format = "%m-%d";
  if (days < 2.5) {
    step = days < 1 ? 0.25 : 0.5;
    format = "%m-%d\\n%H:%M";
  } else if (days > 300) {
    step = 30 * std::ceil(each / 30);
    format = "%Y-%m";
  }
  return fmt::format("set xdata time\nset timefmt '%s'\nset format x \"{}\"\nset xtics {}\n",
                     format, step * day_s);
}

std::string axes(const Chart& chart, double lo, double hi) {
  std::string out =
      fmt::format("set xlabel {}\nset ylabel {}\n", quoted(chart.x_title), quoted(chart.y_title));
  out +=
      "set grid ytics lt 1 lc rgb '#c8c8c8' lw 0.5\nset border 3\nset tics nomirror out\n"
      "set key below center horizontal reverse Left samplen 2 spacing 1.2\n";

  if (chart.from_zero) out += "set yrange [*<0:*]\n";
  out += fmt::format("set format y '%.{}f'\n", chart.y_decimals);
  const double margin = hi > lo ? 0.03 * (hi - lo) : chart.time ? day_s / 2 : 1;
  out += fmt::format("set xrange [{}:{}]\n", lo - margin, hi + margin);
  if (chart.time) out += dates((hi - lo + 2 * margin) / day_s);
  return out;
}

}  // namespace

std::string script_of(const Chart& chart, PictureFormat format) {
  if (chart.points.empty()) throw Error{Errc::domain, "a chart needs points"};
  double lo = chart.points[0].points.empty() ? 0 : chart.points[0].points[0].x, hi = lo;
  std::string data, plots;
  std::size_t number = 0;
  const auto add = [&](const std::vector<PlotPoint>& points) {
    require_finite(points);
    for (const PlotPoint& p : points) {
      lo = std::min(lo, p.x);
      hi = std::max(hi, p.x);
    }
    data += block(number, points);
    plots += fmt::format("{} $d{} ", number == 0 ? "plot" : ", \\\n ", number);
    ++number;
  };
  for (const Chart::Curve& c : chart.curves) {
    add(c.points);
    plots += fmt::format("using 1:2 with lines lw 2 lc rgb '{}' title {}", blue, quoted(c.title));
  }
  for (const Chart::Points& p : chart.points) {
    add(p.points);
    plots +=
        fmt::format("using 1:2:3 with yerrorbars pt {} ps {} lw 1.2 lc rgb '{}' title {}",
                    p.odd ? 8 : 7, p.odd ? 1.2 : 0.6, p.odd ? orange : "black", quoted(p.title));
  }
  std::string marks;
  for (const auto& [title, y] : chart.levels) {
    if (!std::isfinite(y)) throw Error{Errc::domain, "a line of a chart needs a finite value"};
    plots += fmt::format(", \\\n {} with lines dt 2 lw 2 lc rgb '{}' title {}", y, orange,
                         quoted(title));
  }
  for (const auto& [title, x] : chart.events) {
    if (!std::isfinite(x)) throw Error{Errc::domain, "a line of a chart needs a finite value"};
    marks += fmt::format(
        "set arrow from {0}, graph 0 to {0}, graph 1 nohead dt 4 lw 2 lc rgb '{1}'\n"
        "set label {2} at {0}, graph 0.97 offset 0.5,0 textcolor rgb '{1}'\n",
        x, green, quoted(title));
  }
  return terminal(format) + data + axes(chart, lo, hi) + marks + plots + "\n";
}

PictureFormat picture_format(const std::string& file) {
  if (file.ends_with(".svg")) return PictureFormat::svg;
  if (file.ends_with(".png")) return PictureFormat::png;
  if (file.ends_with(".pdf")) return PictureFormat::pdf;
  throw Error{Errc::domain, fmt::format("{} is no kind of picture", file),
              "a name that ends in .svg, .png or .pdf"};
}

}  // namespace areo::report
