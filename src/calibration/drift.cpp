// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/calibration/drift.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "areo/calibration/fit.hpp"
#include "areo/core/error.hpp"
#include "areo/numeric/quantile.hpp"

namespace areo::calibration {
namespace {

constexpr double level = 0.95;

// The covariance between the two selections is in neither of their fits.
void require_finite(const CheckSet& set) {
  const auto& v = set.covariance.elements();
  if (set.covariance.size() != set.checks.size() ||
      !std::all_of(v.begin(), v.end(), [](double e) { return std::isfinite(e); }))
    throw Error{Errc::domain, "checks need a finite covariance, one row for each of them"};
}

CheckSet selected(const CheckSet& all, std::span<const std::size_t> which) {
  CheckSet some;
  for (const std::size_t i : which) {
    if (i >= all.checks.size())
      throw Error{Errc::domain, fmt::format("there is no check {} in the set", i)};
    some.checks.push_back(all.checks[i]);
  }
  some.covariance = all.covariance.only(which);
  if (all.apart.size() > 0) some.apart = all.apart.only(which);
  return some;
}

// One of the two calibrations, as the correction it makes of the checks of the whole set.
struct Side {
  std::span<const std::size_t> which;
  CheckSet set;
  CorrectionFit fit;

  Side(const CheckSet& all, std::span<const std::size_t> w, double division, double length)
      : which{w}, set{selected(all, w)}, fit{fit_correction(set, division, length)} {}

  // Adds `sign` times the weight of every check in the correction at R.
  // @param slope_weight  part of the slope that is taken
  void add_weights(std::vector<double>& weights, double at, double sign,
                   double slope_weight) const {
    const std::vector<double> own = weights_at(set, fit, slope_weight, at);
    for (std::size_t i = 0; i < own.size(); ++i) weights[which[i]] += sign * own[i];
  }
};

// Both count with the whole slope that their checks show, or with none if they stand at one place:
// part of a slope would make the instrument's own slope look like a change.
double slope_weight(const Side& s) { return s.fit.slope_weight > 0 ? 1 : 0; }

DriftPoint point(const CheckSet& all, const Side& before, const Side& after, double at, double k,
                 double u_usual_slope) {
  std::vector<double> w(all.checks.size(), 0.0);
  after.add_weights(w, at, 1, slope_weight(after));
  before.add_weights(w, at, -1, slope_weight(before));
  DriftPoint p;
  p.indication = at;
  for (std::size_t i = 0; i < w.size(); ++i)
    p.difference += w[i] * all.checks[i].correction.estimate;
  // What an offset leaves out of the instrument's own slope, away from its place.
  const double left_out = (1 - slope_weight(after)) * (at - after.fit.correction.r0) -
                          (1 - slope_weight(before)) * (at - before.fit.correction.r0);
  p.u = std::hypot(std::sqrt(all.covariance.variance_of(w)), u_usual_slope * left_out);
  p.expanded = k * p.u;
  p.en = p.expanded > 0 ? p.difference / p.expanded : 0;  // a check in both may be all there is
  return p;
}

bool same(std::span<const std::size_t> a, std::span<const std::size_t> b) {
  return a.size() == b.size() && std::is_permutation(a.begin(), a.end(), b.begin());
}

}  // namespace

Drift drift(const CheckSet& together, std::span<const std::size_t> before,
            std::span<const std::size_t> after, double division, double length) {
  const double u_usual_slope = instruments::usual_slope(division, length);
  require_finite(together);
  const Side a{together, before, division, length};
  const Side b{together, after, division, length};
  if (same(before, after)) return {DriftVerdict::same_checks, {}};
  Drift d;
  const double from = std::max(a.fit.correction.checked_lo, b.fit.correction.checked_lo);
  const double to = std::min(a.fit.correction.checked_hi, b.fit.correction.checked_hi);
  const double one_place = one_place_divisions * division;
  if (to - from <= -one_place) return d;
  std::vector<double> places{(from + to) / 2};
  if (to - from >= one_place) places = {from, (from + to) / 2, to};
  const bool is_line = places.size() > 1 && slope_weight(a) + slope_weight(b) > 0;
  const double k = std::sqrt(numeric::chi_squared_quantile(level, is_line ? 2 : 1));
  for (const double at : places) d.points.push_back(point(together, a, b, at, k, u_usual_slope));
  const bool all_inside = std::all_of(d.points.begin(), d.points.end(),
                                      [](const DriftPoint& p) { return std::abs(p.en) <= 1; });
  d.verdict = all_inside ? DriftVerdict::none_seen : DriftVerdict::drifted;
  return d;
}

}  // namespace areo::calibration
