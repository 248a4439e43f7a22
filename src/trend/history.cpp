#include "areo/trend/history.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <iterator>

#include "areo/core/error.hpp"
#include "areo/core/shell_word.hpp"
#include "areo/trend/groups.hpp"

namespace areo::trend {
namespace {

using batch::Batch;
using batch::Point;

// Nearer readings are no step: their difference is the eye's. A judgement.
constexpr double shortest_step_days = 0.45;

std::vector<Point> points_of(Batch& batch, const std::string& bottle) {
  const auto& samples = batch.samples();
  const auto filled = std::find_if(samples.begin(), samples.end(),
                                   [&](const auto& s) { return s.bottle() == bottle; });
  std::vector<Point> all;
  for (auto s = samples.begin(); s != samples.end(); ++s)
    if (s->bottle() == bottle || (s->bottle().empty() && s < filled))
      all.push_back(batch.point(*s));
  return all;
}

// The first point that nothing was added after.
std::size_t after_last_addition(const Batch& batch, const std::vector<Point>& points) {
  std::size_t first = points.size() - 1;
  while (first > 0 && !batch.added_between(points[first - 1].sample, points.back().sample)) --first;
  return first;
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

// Numbers in the history of the points that were computed.
std::vector<std::size_t> places(const History& h) {
  std::vector<std::size_t> all;
  for (std::size_t i = 0; i < h.points.size(); ++i)
    if (h.points[i].computed()) all.push_back(i);
  return all;
}

bool on_a_mark(double indication, double division) {
  const double mark = indication / division;
  return std::abs(mark - std::round(mark)) < 0.01;
}

// Somebody who reads nothing but whole divisions of a stem rounds each reading to them.
void widen_whole_divisions(Series& s, Batch& batch, const std::vector<Point>& points) {
  constexpr std::size_t least = 4;
  std::vector<double> division;
  for (const Point& p : points) {
    if (!p.computed()) continue;
    const auto& instrument = batch.shelf().instrument(p.sample.first().instrument);
    division.push_back(instrument.graduation().division);
    for (const notebook::ReadingRecord& r : p.sample.readings) {
      if (r.half_width > 0 || !on_a_mark(r.indication, division.back())) return;
    }
  }
  if (division.size() < least) return;
  // Of a scale of gravity: what a step of another one is in gravity depends on where it is.
  for (std::size_t i = 0; i < s.size(); ++i)
    if (division[i] < 0.01)
      s.errors.set_own(i, std::hypot(s.errors.own(i), division[i] / std::sqrt(12)));
}

// Points of the groups that count: neither odd, nor to be confirmed, nor lifted.
std::vector<std::size_t> sound(const Series& s, const State& state) {
  std::vector<std::size_t> all;
  for (std::size_t i = 0; i < s.size(); ++i)
    if (!s.is_lifted(i) && state.unconfirmed != i &&
        std::none_of(state.odd.begin(), state.odd.end(),
                     [&](const OddPoint& o) { return o.point == i; }))
      all.push_back(i);
  return all;
}

void find_odd(History& h, const Groups& groups, const std::vector<std::size_t>& place) {
  for (const OddPoint& o : h.state.odd)
    for (const std::size_t member : groups.members[o.point])
      h.odd.push_back({place[member], o.off, likely(o.off)});
  if (const auto last = h.state.unconfirmed) {
    const std::vector<std::size_t> others = sound(groups.series, h.state);
    const auto before = std::lower_bound(others.begin(), others.end(), *last);
    const double off =
        before == others.begin() ? 0 : -groups.series.fall(*std::prev(before), *last).estimate;
    for (const std::size_t member : groups.members[*last])
      h.odd.push_back({place[member], off, likely(off) + ", or it ferments that fast"});
  }
}

void find_rates(History& h, const Batch& batch, const Series& whole) {
  h.per_day.resize(h.points.size());
  const std::vector<std::size_t> place = places(h);
  for (std::size_t i = 1; i < place.size(); ++i) {
    const double days = whole.days[i] - whole.days[i - 1];
    if (days < shortest_step_days ||
        batch.added_between(h.points[place[i - 1]].sample, h.points[place[i]].sample))
      continue;
    const uncertainty::Value fall = whole.fall(i - 1, i);
    h.per_day[place[i]] = {fall.estimate / days, fall.u / days, fall.degrees_of_freedom};
  }
}

}  // namespace

bool History::is_odd(std::size_t point) const {
  return std::any_of(odd.begin(), odd.end(), [&](const Oddity& o) { return o.point == point; });
}

double day_of(const History& h, Moment m) {
  constexpr double day_s = 86400;
  return static_cast<double>(m.seconds - h.zero.seconds) / day_s;
}

History history_of(Batch& batch, const std::string& bottle) {
  History h;
  h.points = points_of(batch, bottle);
  if (std::none_of(h.points.begin(), h.points.end(), [](const Point& p) { return p.computed(); }))
    throw Error{
        Errc::domain,
        fmt::format("{} has no reading that says anything",
                    bottle.empty() ? batch.record().name
                                   : fmt::format("bottle {} of {}", bottle, batch.record().name)),
        fmt::format("areo batch show {} lists them", shell_word(batch.record().name))};
  h.since = after_last_addition(batch, h.points);
  h.zero = h.points[h.since].sample.at();
  const Series whole = series_of(h.points, h.zero);
  find_rates(h, batch, whole);
  std::vector<std::size_t> place = places(h);
  const auto first = std::lower_bound(place.begin(), place.end(), h.since);
  h.series = whole.from(static_cast<std::size_t>(first - place.begin()));
  place.erase(place.begin(), first);
  if (h.series.size() == 0) return h;
  widen_whole_divisions(h.series, batch,
                        {h.points.begin() + static_cast<std::ptrdiff_t>(h.since), h.points.end()});
  const Groups groups = grouped(h.series);
  h.state = state_of(groups.series);
  find_odd(h, groups, place);
  const Series counts = groups.series.only(sound(groups.series, h.state));
  const double near = h.series.value(h.series.size() - 1).expanded();
  h.outlook = outlook_of(counts, near);
  return h;
}

}  // namespace areo::trend
