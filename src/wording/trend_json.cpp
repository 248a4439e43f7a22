// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/wording/trend_json.hpp"

#include <fmt/format.h>

#include "areo/measurement/ferments.hpp"
#include "areo/text/json.hpp"
#include "areo/trend/stated_end.hpp"
#include "areo/wording/batch.hpp"
#include "areo/wording/strength.hpp"
#include "areo/wording/trend.hpp"

namespace areo::wording {

using trend::Fall;
using trend::History;
using trend::Passing;

namespace {

std::string fall_json(const std::optional<Fall>& f) {
  if (!f) return "null";
  return fmt::format(
      R"({{"days":{},"fall":{},"standard_uncertainty":{},"expanded_uncertainty":{},"points":{}}})",
      f->days, f->value.estimate, f->value.u, f->expanded(), f->points);
}

std::string hidden_json(const History& h) {
  const auto& p = h.state.hidden;
  if (!p) return "null";
  constexpr double week = 7;
  const measurement::Made made =
      measurement::made_by_fall(h.series.gravity.front(), week * p->per_day);
  return fmt::format(
      R"({{"sg_per_day":{},"days":{},"points":{},"percent_vol_a_week":{},"bar_a_week":{}}})",
      p->per_day, p->days, p->points, made.percent_vol, made.bar);
}

std::string moment_json(const History& h, const std::optional<double>& day) {
  return day ? fmt::format("\"{}\"", trend::moment_of(h, *day).text()) : "null";
}

std::string outlook_json(const History& h) {
  const trend::Forecast& o = h.outlook;
  const auto number = [](const std::optional<double>& v) {
    return v ? fmt::format("{}", *v) : std::string{"null"};
  };
  return fmt::format(
      R"({{"highest_sg_20_20":{},"lowest_sg_20_20":{},"level":{},"steady_from":{},"refused":{}}})",
      number(o.highest), number(o.lowest), trend::outlook_level, moment_json(h, o.steady_from),
      o.refused.empty() ? "null" : text::json_string(o.refused));
}

std::string passing_json(const History& h, const std::optional<Passing>& p) {
  if (!p) return "null";
  const auto at = [&](const std::optional<std::size_t>& point) {
    return point ? fmt::format("\"{}\"", h.points[*point].sample.at().text()) : "null";
  };
  return fmt::format(
      R"({{"percent_vol":{},"level":{},"below_until":{},"above_from":{},"passed_at":{},)"
      R"("passed_lo":{},"passed_hi":{},"no_curve":{},"side":"{}",)"
      R"("contradiction":{}}})",
      p->percent_vol, p->level, at(p->below_until), at(p->above_from),
      moment_json(h, p->by_curve.day), moment_json(h, p->by_curve.lo),
      moment_json(h, p->by_curve.hi),
      p->by_curve.refused.empty() ? "null" : text::json_string(p->by_curve.refused),
      word(p->side()), p->contradiction.has_value());
}

std::string trend_json(const batch::Batch& batch, const std::string& bottle, const History& h,
                       const std::optional<double>& expected,
                       const std::optional<Passing>& passing) {
  return fmt::format(R"({{"trend":{},"bottle":{},"state":"{}","since":"{}","whole":{},)"
                     R"("fall":{},"hidden":{},"why":{},"scatter":{},"outlook":{},"odd":{},)"
                     R"("limit":{}}})",
                     text::json_string(batch.record().name), text::json_string(bottle),
                     trend::is_stuck(h, expected) ? "stuck" : word(h.state.phase), h.zero.text(),
                     fall_json(h.state.whole), fall_json(h.state.fall), hidden_json(h),
                     text::json_string(h.state.why), h.state.scatter, outlook_json(h), odd_json(h),
                     passing_json(h, passing));
}

}  // namespace

void each_trend_json(batch::Batch& batch, const std::string& bottle, const History& h,
                     const std::optional<double>& expected, const std::optional<Passing>& passing,
                     const std::function<void(const std::string&)>& line) {
  each_point_json(batch, batch.samples(bottle), h.points, line);
  line(trend_json(batch, bottle, h, expected, passing));
}

}  // namespace areo::wording
