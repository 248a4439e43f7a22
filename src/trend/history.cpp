#include "areo/trend/history.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "areo/core/error.hpp"
#include "areo/core/shell_word.hpp"
#include "areo/trend/outlier.hpp"

namespace areo::trend {
namespace {

using batch::Batch;
using batch::Point;

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

void find_off_the_curve(History& h, const std::vector<std::size_t>& place, double near) {
  const std::vector<double>& residuals = h.outlook.studentized;
  const bool none_is_odd = std::none_of(residuals.begin(), residuals.end(),
                                        [](double r) { return std::abs(r) > odd_residual; });
  if (!residuals.empty() && none_is_odd) return;  // there is no need to fit again
  for (const Outlier& o : outliers_of(h.series, near))
    h.odd.push_back({place[o.point], o.off, likely(o.off)});
}

// Gravity does not rise by itself. What follows something odd is no judge.
void find_rises(History& h, const std::vector<std::size_t>& place) {
  const auto is_odd = [&](std::size_t point) {
    return std::any_of(h.odd.begin(), h.odd.end(),
                       [&](const Oddity& o) { return o.point == point; });
  };
  for (std::size_t i = 1; i < place.size(); ++i) {
    const uncertainty::Value fall = h.series.fall(i - 1, i);
    if (-fall.estimate > fall.expanded() && !is_odd(place[i]) && !is_odd(place[i - 1]))
      h.odd.push_back({place[i], -fall.estimate, likely(-fall.estimate)});
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
  h.state = state_of(h.series);
  if (h.series.size() == 0) return h;
  const double near = h.series.value(h.series.size() - 1).expanded();
  h.outlook = outlook_of(h.series, near);
  find_off_the_curve(h, place, near);
  find_rises(h, place);
  return h;
}

}  // namespace areo::trend
