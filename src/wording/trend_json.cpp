// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/wording/trend_json.hpp"

#include "areo/measurement/ferments.hpp"
#include "areo/trend/stated_end.hpp"
#include "areo/wording/batch.hpp"
#include "areo/wording/strength.hpp"
#include "areo/wording/trend.hpp"
#include "record_value.hpp"

namespace areo::wording {

using trend::Fall;
using trend::History;
using trend::Passing;

text::Json odd_value(const History& h) {
  text::Json all = text::Json::array();
  for (const trend::Outlier& o : h.odd)
    all.push_back({{"readings", numbers_value(h.points[o.point].sample)},
                   {"off", text::number_json(o.off)},
                   {"likely", o.likely}});
  return all;
}

namespace {

text::Json fall_value(const std::optional<Fall>& f) {
  if (!f) return nullptr;
  return {{"days", text::number_json(f->days)},
          {"fall", text::number_json(f->value.estimate)},
          {"standard_uncertainty", text::number_json(f->value.u)},
          {"expanded_uncertainty", text::number_json(f->expanded())},
          {"points", f->points}};
}

text::Json hidden_value(const History& h) {
  const auto& p = h.state.hidden;
  if (!p) return nullptr;
  constexpr double week = 7;
  const measurement::Made made =
      measurement::made_by_fall(h.series.gravity.front(), week * p->per_day);
  return {{"sg_per_day", text::number_json(p->per_day)},
          {"days", text::number_json(p->days)},
          {"points", p->points},
          {"percent_vol_a_week", text::number_json(made.percent_vol)},
          {"bar_a_week", text::number_json(made.bar)}};
}

text::Json day_value(const History& h, const std::optional<double>& day) {
  return day ? text::Json(trend::moment_of(h, *day).text()) : text::Json();
}

text::Json outlook_value(const History& h) {
  const trend::Forecast& o = h.outlook;
  return {{"highest_sg_20_20", text::number_json(o.highest)},
          {"lowest_sg_20_20", text::number_json(o.lowest)},
          {"level", text::number_json(trend::outlook_level)},
          {"steady_from", day_value(h, o.steady_from)},
          {"refused", text::text_json(o.refused)}};
}

text::Json passing_value(const History& h, const std::optional<Passing>& p) {
  if (!p) return nullptr;
  const auto at = [&](const std::optional<std::size_t>& point) {
    return point ? text::Json(h.points[*point].sample.at().text()) : text::Json();
  };
  return {{"percent_vol", text::number_json(p->percent_vol)},
          {"level", text::number_json(p->level)},
          {"below_until", at(p->below_until)},
          {"above_from", at(p->above_from)},
          {"passed_at", day_value(h, p->by_curve.day)},
          {"passed_lo", day_value(h, p->by_curve.lo)},
          {"passed_hi", day_value(h, p->by_curve.hi)},
          {"no_curve", text::text_json(p->by_curve.refused)},
          {"side", word(p->side())},
          {"contradiction", p->contradiction.has_value()}};
}

std::string trend_json(const batch::Batch& batch, const std::string& bottle, const History& h,
                       const std::optional<double>& expected,
                       const std::optional<Passing>& passing) {
  return text::dump({{"trend", batch.record().name},
                     {"bottle", bottle},
                     {"state", trend::is_stuck(h, expected) ? "stuck" : word(h.state.phase)},
                     {"since", h.zero.text()},
                     {"whole", fall_value(h.state.whole)},
                     {"fall", fall_value(h.state.fall)},
                     {"hidden", hidden_value(h)},
                     {"why", h.state.why},
                     {"scatter", text::number_json(h.state.scatter)},
                     {"outlook", outlook_value(h)},
                     {"odd", odd_value(h)},
                     {"limit", passing_value(h, passing)}});
}

}  // namespace

void each_trend_json(batch::Batch& batch, const std::string& bottle, const History& h,
                     const std::optional<double>& expected, const std::optional<Passing>& passing,
                     const std::function<void(const std::string&)>& line) {
  each_point_json(batch, batch.samples(bottle), h.points, line);
  line(trend_json(batch, bottle, h, expected, passing));
}

}  // namespace areo::wording
