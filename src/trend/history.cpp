// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/trend/history.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <numeric>
#include <utility>

#include "areo/analysis/rounding.hpp"
#include "areo/core/error.hpp"
#include "areo/core/shell_word.hpp"
#include "areo/measurement/ferments.hpp"
#include "areo/trend/whole_divisions.hpp"
#include "counted.hpp"

namespace areo::trend {
namespace {

using batch::Batch;
using batch::Point;

// Nearer readings are no step: their difference is the eye's. A judgement.
constexpr double shortest_step_days = 0.45;

// A point that counts, and the day that it stands for.
struct Counted {
  std::size_t point;
  double day;
};

// Points of what counts and of what is shown.
std::vector<Counted> add_points(History& h, Batch& batch, const Runs& runs,
                                const std::vector<std::size_t>& shown) {
  const auto days = counted_of(batch, runs, h.zero);
  std::vector<Counted> counted;
  auto next_shown = shown.begin();
  for (std::size_t i = 0; i < runs.samples.size(); ++i) {
    const auto day = days.find(i);
    const bool is_shown = next_shown != shown.end() && *next_shown == i;
    if (i == runs.last_begin()) h.since = h.points.size();
    if (day == days.end() && !is_shown) continue;
    if (is_shown) {
      h.shown.push_back(h.points.size());
      ++next_shown;
    }
    h.points.push_back(batch.point(*runs.samples[i]));
    if (day != days.end() && h.points.back().computed())
      counted.push_back({h.points.size() - 1, day->second});
  }
  return counted;
}

std::vector<std::size_t> all_of(const Runs& runs) {
  std::vector<std::size_t> all(runs.samples.size());
  std::iota(all.begin(), all.end(), 0);
  return all;
}

// A slipped digit: a tenth or a hundredth of the gravity, within the eye's part of a division.
bool is_slip(double off) {
  const double size = std::abs(off);
  return std::abs(size - 0.010) < 0.001 || std::abs(size - 0.100) < 0.001;
}

std::string likely(double off) {
  const char* slip = is_slip(off) ? "a slipped digit, " : "";
  return off > 0 ? fmt::format("{}bubbles, an addition that was not noted, or another bottle", slip)
                 : fmt::format("{}a misread scale, layers, or another bottle", slip);
}

void count_whole_divisions(Series& s, Batch& batch, const History& h) {
  std::vector<Noted> noted;
  std::vector<double> rounding;
  for (const std::size_t i : h.counted) {
    const Point& p = h.points[i];
    noted.push_back(noted_of(p.sample, batch.shelf()));
    rounding.push_back(analysis::rounding(p.result(), p.gravity().key));
  }
  count_rounding(s, noted, rounding);
}

// Where no extract would be left, by the last reading that knows the original as it is now.
std::optional<uncertainty::Value> lowest_end(const History& h) {
  const auto since = h.points.rend() - static_cast<std::ptrdiff_t>(h.since);
  const auto last = std::find_if(h.points.rbegin(), since,
                                 [](const Point& p) { return p.computed() && p.drink; });
  if (last == since || !last->has_strength()) return std::nullopt;
  return measurement::gravity_without_extract(last->result().at("original_extract_percent").value);
}

void find_odd(History& h) {
  if (shifted(h.state)) return;  // which of them are the true ones nobody knows
  for (const OddPoint& o : h.state.odd) h.odd.push_back({h.counted[o.point], o.off, likely(o.off)});
  if (const auto last = h.state.unconfirmed) {
    const std::vector<std::size_t> others = sound_points(h.series, h.state);
    const auto before = std::lower_bound(others.begin(), others.end(), *last);
    const double off =
        before == others.begin() ? 0 : -h.series.fall(*std::prev(before), *last).estimate;
    h.odd.push_back({h.counted[*last], off, likely(off) + ", or it ferments that fast"});
  }
}

// Between those that a list shows.
void find_rates(History& h, const Batch& batch) {
  h.per_day.resize(h.points.size());
  std::vector<std::size_t> place;
  std::vector<const Point*> points;
  for (const std::size_t i : h.shown)
    if (h.points[i].computed()) {
      place.push_back(i);
      points.push_back(&h.points[i]);
    }
  const Series s = series_of(points, h.zero);
  for (std::size_t i = 1; i < place.size(); ++i) {
    const double days = s.days[i] - s.days[i - 1];
    if (days < shortest_step_days || batch.added_between(points[i - 1]->sample, points[i]->sample))
      continue;
    const uncertainty::Value fall = s.fall(i - 1, i);
    h.per_day[place[i]] = {fall.estimate / days, fall.u / days, fall.degrees_of_freedom};
  }
}

}  // namespace

bool History::is_odd(std::size_t point) const {
  return std::any_of(odd.begin(), odd.end(), [&](const Outlier& o) { return o.point == point; });
}

double day_of(const History& h, Moment m) { return days_between(h.zero, m); }

Moment moment_of(const History& h, double day) {
  constexpr double day_s = 86400;
  return {h.zero.seconds + std::llround(day * day_s), h.zero.offset_s};
}

History history_of(Batch& batch, const std::string& bottle, Shown shown) {
  History h;
  const Runs runs = runs_of(batch, batch.samples(bottle));
  h.readings = runs.samples.size();
  const std::size_t since = runs.last_begin();
  h.readings_since = h.readings - since;
  if (h.readings > 0) h.zero = runs.samples[since]->at();
  const std::vector<Counted> counted =
      add_points(h, batch, runs, shown == Shown::all ? all_of(runs) : batch::listed(runs.samples));
  if (std::none_of(h.points.begin(), h.points.end(), [](const Point& p) { return p.computed(); }))
    throw Error{
        Errc::domain,
        fmt::format("{} has no reading that says anything",
                    bottle.empty() ? batch.record().name
                                   : fmt::format("bottle {} of {}", bottle, batch.record().name)),
        fmt::format("areo batch show {} lists them", shell_word(batch.record().name))};
  find_rates(h, batch);
  std::vector<const Point*> since_then;
  std::vector<double> days;
  for (const Counted& c : counted) {
    if (c.point < h.since) continue;
    h.counted.push_back(c.point);
    since_then.push_back(&h.points[c.point]);
    days.push_back(c.day);
  }
  h.series = series_of(since_then, h.zero);
  h.series.days = std::move(days);
  if (h.series.size() == 0) {
    h.outlook.refused = "no reading could be computed";
    return h;
  }
  count_whole_divisions(h.series, batch, h);
  h.state = state_of(h.series);
  find_odd(h);
  h.outlook = batch.record().culture == ferment::Culture::acetic
                  ? Forecast{.refused = "what makes acid of alcohol lets the gravity rise again"}
                  : forecast_of(h.series, h.state, lowest_end(h));
  h.course = course_of(h.series.only(sound_points(h.series, h.state)));
  return h;
}

}  // namespace areo::trend
