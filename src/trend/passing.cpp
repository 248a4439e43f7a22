#include "areo/trend/passing.hpp"

#include "areo/measurement/limit.hpp"

namespace areo::trend {
namespace {

using batch::Point;
using ferment::Culture;
using uncertainty::Side;

std::vector<Point> as_of_yeast(batch::Batch& batch, const std::vector<Point>& points) {
  std::vector<Point> all;
  all.reserve(points.size());
  for (const Point& p : points) all.push_back(batch.point(p.sample, Culture::yeast));
  return all;
}

Crossing crossing(const std::vector<Point>& points, Moment zero, double limit, double level) {
  const Series s = strength_series_of(points, zero);
  if (s.size() == 0) return {.refused = "no reading says how strong it is"};
  // One side at the level: both sides hold what lies between them.
  return crossing_of(s, s.value(s.size() - 1).expanded(), -limit, 2 * level - 1);
}

}  // namespace

Passing passing_of(batch::Batch& batch, const History& h, double limit, double level) {
  Passing p{limit, level};
  const Culture culture = batch.record().culture;
  const bool mixed = culture == Culture::mixed;
  const std::vector<Point> points(h.points.begin() + static_cast<std::ptrdiff_t>(h.since),
                                  h.points.end());
  const std::vector<Point> clean = mixed ? as_of_yeast(batch, points) : points;
  bool still_below = true;
  for (std::size_t i = 0; i < points.size(); ++i) {
    if (!points[i].has_strength()) continue;
    const Side where = measurement::decide_strength(*points[i].drink, limit, level).side;
    still_below = still_below && where == Side::below;
    if (still_below) p.below_until = h.since + i;
    if (where != Side::above)
      p.above_from.reset();
    else if (!p.above_from)
      p.above_from = h.since + i;
  }
  p.by_curve = crossing(points, h.zero, limit, level);
  // Acids would only have kept it below for longer.
  if (mixed) {
    const Crossing yeast = crossing(clean, h.zero, limit, level);
    p.by_curve.lo = yeast.lo;
    p.by_curve.never = p.by_curve.never && yeast.never;
  }
  // Nothing lies above for being below an upper bound.
  if (culture == Culture::acetic) {
    p.by_curve.day.reset();
    p.by_curve.hi.reset();
  }
  return p;
}

}  // namespace areo::trend
