// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/trend/passing.hpp"

#include <algorithm>

#include "areo/analysis/limit.hpp"

namespace areo::trend {
namespace {

using batch::Point;
using ferment::Culture;
using uncertainty::Side;

// Neither odd ones nor such as bubbles lift.
std::vector<const Point*> those_that_count(const History& h) {
  std::vector<const Point*> all;
  for (const std::size_t i : h.counted)
    if (!h.points[i].lifted && !h.is_odd(i)) all.push_back(&h.points[i]);
  return all;
}

// The same as if clean yeast had fermented it.
Crossing passed_as_yeast(batch::Batch& batch, const std::vector<const Point*>& points, Moment zero,
                         double limit, double level) {
  std::vector<Point> clean;
  clean.reserve(points.size());
  for (const Point* p : points) clean.push_back(batch.point(p->sample, Culture::yeast));
  std::vector<const Point*> all;
  all.reserve(clean.size());
  for (const Point& p : clean) all.push_back(&p);
  return passed_by_curve(all, zero, limit, level);
}

}  // namespace

Crossing passed_by_curve(std::span<const Point* const> points, Moment zero, double limit,
                         double level) {
  const Series s = strength_series_of(points, zero);
  if (s.size() == 0) return {.refused = "no reading says how strong it is"};
  Crossing c = crossing_of(s, s.value(s.size() - 1).expanded(), -limit, level);
  if (c.day && *c.day > s.days.back())
    return {.refused = "the curve passes it after the last reading, and foretells nothing"};
  if (c.hi && *c.hi > s.days.back()) c.hi.reset();
  return c;
}

void keep_within(Crossing& c, const std::optional<double>& below_until,
                 const std::optional<double>& above_from) {
  if (!c.day) return;
  if ((below_until && c.hi && *c.hi < *below_until) ||
      (above_from && c.lo && *c.lo > *above_from)) {
    c = {.refused = "the curve and the single readings do not go together"};
    return;
  }
  if (below_until) c.lo = std::max(c.lo.value_or(*below_until), *below_until);
  if (above_from) c.hi = std::min(c.hi.value_or(*above_from), *above_from);
  if (c.lo) c.day = std::max(*c.day, *c.lo);
  if (c.hi) c.day = std::min(*c.day, *c.hi);
}

Side Bracket::side_at(std::size_t point) const {
  if (contradiction) return Side::cannot_tell;
  if (above_from) return Side::above;
  return below_until == point ? Side::below : Side::cannot_tell;
}

Bracket bracket_of(std::span<const Decided> decided) {
  Bracket b;
  std::optional<std::size_t> over;
  for (const Decided& d : decided) {
    if (over && d.side == Side::below) b.contradiction = {*over, d.point};
    if (!over && d.side == Side::above) over = d.point;
  }
  for (auto d = decided.begin(); d != decided.end() && d->less; ++d)
    if (d->side == Side::below) b.below_until = d->point;
  for (auto d = decided.rbegin(); d != decided.rend() && (!d->less || d->lifted); ++d)
    if (d->side == Side::above) b.above_from = d->point;
  return b;
}

Side Passing::side() const { return last ? side_at(*last) : Side::cannot_tell; }

Passing passing_of(batch::Batch& batch, const History& h, double limit, double level) {
  Passing p;
  p.percent_vol = limit;
  p.level = level;
  const Culture culture = batch.record().culture;
  std::vector<Decided> decided;
  for (std::size_t i = h.since; i < h.points.size(); ++i) {
    const Point& point = h.points[i];
    if (!point.has_strength()) continue;
    p.last = i;
    if (!h.is_odd(i))
      decided.push_back({i, analysis::decide_strength(*point.drink, limit, level).side,
                         point.result().at("alcohol_percent_vol").value.estimate < limit,
                         point.lifted});
  }
  static_cast<Bracket&>(p) = bracket_of(decided);
  const std::vector<const Point*> counted = those_that_count(h);
  p.by_curve = passed_by_curve(counted, h.zero, limit, level);
  // Acids would only have kept it below for longer.
  if (culture == Culture::mixed && p.by_curve.day)
    p.by_curve.lo = passed_as_yeast(batch, counted, h.zero, limit, level).lo;
  // Nothing lies above for being below an upper bound.
  if (culture == Culture::acetic) p.by_curve = {.refused = "how much acid it made is not known"};
  const auto day = [&](const std::optional<std::size_t>& point) -> std::optional<double> {
    if (!point) return std::nullopt;
    return day_of(h, h.points[*point].sample.at());
  };
  if (!p.contradiction) keep_within(p.by_curve, day(p.below_until), day(p.above_from));
  return p;
}

Deciding deciding_readings(batch::Batch& batch, const History& h, const Passing& p) {
  const notebook::ReadingRecord& last = h.points[p.last.value()].sample.first();
  const auto scale = batch.shelf().instrument(last.instrument).graduation();
  const auto decides = [&](double indication, Side side) {
    notebook::ReadingRecord r = last;
    r.indication = indication;
    r.half_width = 0;
    r.degassed = true;
    const Point point = batch.preview({std::move(r)});
    return point.has_strength() &&
           analysis::decide_strength(*point.drink, p.percent_vol, p.level).side == side;
  };
  // The first mark that decides, then the place between it and the one before.
  const auto first = [&](Side side, double step) -> std::optional<double> {
    constexpr int halvings = 4;  // to a sixteenth of a division
    double undecided = last.indication, mark = undecided;
    do {
      undecided = mark;
      mark += step;
      if (mark < scale.lo || mark > scale.hi) return std::nullopt;
    } while (!decides(mark, side));
    for (int i = 0; i < halvings; ++i) {
      const double middle = (undecided + mark) / 2;
      (decides(middle, side) ? mark : undecided) = middle;
    }
    return mark;
  };
  return {first(Side::below, scale.division), first(Side::above, -scale.division)};
}

}  // namespace areo::trend
