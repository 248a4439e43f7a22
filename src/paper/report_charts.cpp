// SPDX-License-Identifier: GPL-3.0-or-later
#include "report_charts.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "areo/text/format.hpp"
#include "areo/wording/batch.hpp"
#include "areo/wording/strength.hpp"
#include "report_parts.hpp"

namespace areo::paper {
namespace {

using document::Chart;
using document::PlotPoint;
using trend::History;

constexpr std::size_t longest_event = 24;

// By the clock on the wall.
double wall_s(Moment m) { return static_cast<double>(m.seconds + m.offset_s); }

void add_additions(Chart& chart, const ReportData& m, const BottleHistory& a) {
  for (const notebook::AdditionRecord& r : m.batch->additions())
    if (concerns(r, a))
      chart.events.emplace_back(text::shortened(wording::addition_text(*m.book, r), longest_event),
                                wall_s(r.made_at));
}

// Through the readings that count; beyond them it would promise what nobody knows.
void add_curve(Chart& chart, const History& h) {
  if (!h.course) return;
  constexpr int steps = 160;
  Chart::Curve curve{"curve through the readings", {}};
  for (int i = 0; i <= steps; ++i) {
    const double day = std::lerp(h.course->first_day, h.course->last_day, i / double{steps});
    curve.points.push_back({wall_s(trend::moment_of(h, day)), h.course->gravity(day)});
  }
  chart.curves.push_back(std::move(curve));
}

// So little that thousandths would repeat themselves beside it.
bool narrow(const Chart& chart) {
  double lo = 2, hi = 0;
  for (const Chart::Points& all : chart.points)
    for (const PlotPoint& p : all.points) {
      lo = std::min(lo, p.y - p.expanded);
      hi = std::max(hi, p.y + p.expanded);
    }
  return hi - lo < 0.01;
}

}  // namespace

Chart gravity_chart(const ReportData& m, const BottleHistory& a) {
  const History& h = a.history;
  Chart chart{.x_title = {}, .y_title = "gravity 20/20", .time = true, .points = {}};
  Chart::Points usual{"reading ± U", {}}, odd{"odd reading ± U", {}, true};
  for (std::size_t i = 0; i < h.points.size(); ++i) {
    const batch::Point& p = h.points[i];
    if (!p.computed()) continue;
    const auto& v = p.gravity().value;
    (h.is_odd(i) ? odd : usual).points.push_back({wall_s(p.sample.at()), v.estimate, v.expanded()});
  }
  for (Chart::Points* all : {&usual, &odd})
    if (!all->points.empty()) chart.points.push_back(std::move(*all));
  add_curve(chart, h);
  add_additions(chart, m, a);
  if (narrow(chart)) chart.y_decimals = 4;
  chart.title = fmt::format("Gravity against date: {} readings with error bars{}", h.readings,
                            h.course ? ", and a curve through them" : "");
  return chart;
}

Chart strength_chart(const ReportData& m, const BottleHistory& a) {
  Chart chart{.x_title = {},
              .y_title = "alcohol, % vol",
              .time = true,
              .from_zero = true,
              .y_decimals = 1,
              .points = {}};
  Chart::Points figures{"strength ± U", {}}, bounds{"upper bound of it", {}, true};
  for (const batch::Point& p : a.history.points) {
    if (!p.has_strength()) continue;
    const auto& v = p.result().at(wording::strength_key).value;
    const double at = wall_s(p.sample.at());
    if (p.lifted) continue;  // at least so strong: no figure, and no upper bound
    if (p.drink->state == measurement::Fermentation::measured)
      figures.points.push_back({at, v.estimate, v.expanded()});
    else
      bounds.points.push_back({at, analysis::strength_bounds(*p.drink).upper, 0});
  }
  for (Chart::Points* all : {&figures, &bounds})
    if (!all->points.empty()) chart.points.push_back(std::move(*all));
  if (chart.points.empty()) return chart;
  if (m.limit)
    chart.levels.emplace_back(fmt::format("limit {:g} % vol", m.limit->percent_vol),
                              m.limit->percent_vol);
  add_additions(chart, m, a);
  chart.title = fmt::format("Alcohol against date: {} strengths with error bars{}",
                            chart.points.front().points.size(),
                            m.limit ? ", and the limit as a dashed line" : "");
  return chart;
}

}  // namespace areo::paper
