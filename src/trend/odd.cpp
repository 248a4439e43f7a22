// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/trend/odd.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <set>

#include "areo/numeric/quantile.hpp"

namespace areo::trend {
namespace {

constexpr std::size_t window = 30;
constexpr double false_alarms = 0.05;  // of clean series
constexpr double most_bubbles = 0.010;

using Conflicts = std::map<std::size_t, std::set<std::size_t>>;

double own_of(const Series& s, std::size_t a, std::size_t b) {
  return std::hypot(s.errors.own(a), s.errors.own(b));
}

// By what two readings may rise without a rise. In whole divisions the eye and the rounding err by
// half of one each at most, so by less than two between them, which no normal error is as sure
// of; a tenth for what corrections make of it.
double most_rise(const Series& s, std::size_t a, std::size_t b, double sure, double scatter) {
  constexpr double divisions = 1.9;
  const double most = sure * own_of(s, a, b);
  return scatter * (s.division > 0 ? std::min(most, divisions * s.division) : most);
}

Conflicts conflicts_of(const Series& s, double scatter) {
  Conflicts all;
  const auto n = static_cast<double>(std::max(s.size(), window));
  const double sure =
      numeric::normal_quantile(1 - false_alarms / (static_cast<double>(window) * n));
  for (std::size_t later = 1; later < s.size(); ++later)
    for (std::size_t i = later - std::min(later, window); i < later; ++i)
      if (s.gravity[later] - s.gravity[i] - (s.is_lifted(later) ? most_bubbles : 0) >
          most_rise(s, i, later, sure, scatter)) {
        all[i].insert(later);
        all[later].insert(i);
      }
  return all;
}

// Above the line between its neighbours that are not odd themselves; of an end, above the nearest
// one that it does not conflict with.
double off(const Series& s, std::size_t point, const std::set<std::size_t>& odd,
           const std::set<std::size_t>& partners) {
  std::optional<std::size_t> before, after;
  for (std::size_t i = point; i-- > 0 && !before;)
    if (!odd.contains(i)) before = i;
  for (std::size_t i = point + 1; i < s.size() && !after; ++i)
    if (!odd.contains(i)) after = i;
  if (before && after) {
    const double days = s.days[*after] - s.days[*before];
    const double part = days > 0 ? (s.days[point] - s.days[*before]) / days : 0.5;
    return s.gravity[point] -
           (s.gravity[*before] + part * (s.gravity[*after] - s.gravity[*before]));
  }
  std::optional<std::size_t> nearest;
  const auto apart = [&](std::size_t i) { return i > point ? i - point : point - i; };
  for (std::size_t i = 0; i < s.size(); ++i)
    if (i != point && !odd.contains(i) && !partners.contains(i) &&
        (!nearest || apart(i) < apart(*nearest)))
      nearest = i;
  return nearest ? s.gravity[point] - s.gravity[*nearest] : 0;
}

}  // namespace

double scatter_of(const Series& s) {
  std::vector<double> steps;  // upwards, in their uncertainties
  std::optional<std::size_t> last;
  for (std::size_t i = 0; i < s.size(); ++i) {
    if (s.is_lifted(i)) continue;
    if (last) steps.push_back((s.gravity[i] - s.gravity[*last]) / own_of(s, *last, i));
    last = i;
  }
  constexpr std::size_t least = 6;
  if (steps.size() < least) return 1;
  std::sort(steps.begin(), steps.end());
  const auto m = static_cast<double>(steps.size());
  const auto kept = static_cast<std::ptrdiff_t>(steps.size() - (steps.size() + 9) / 10);
  double sum = 0;
  for (auto z = steps.begin(); z != steps.begin() + kept; ++z) sum += *z > 0 ? *z * *z : 0;
  // Of normal steps around none, without their largest tenth; and how it scatters (simulated).
  constexpr double mean_square = 0.175, of_mean = 4.28;
  const double square = sum / m / mean_square;
  return square > 1 + of_mean / std::sqrt(m) ? std::sqrt(square) : 1;
}

std::vector<OddPoint> odd_points(const Series& s, double scatter) {
  Conflicts conflicts = conflicts_of(s, scatter);
  std::set<std::size_t> odd;
  for (;;) {
    std::size_t most = 0, culprit = 0;
    double furthest = 0;
    for (const auto& [point, partners] : conflicts) {
      if (partners.empty() || partners.size() < most) continue;
      const double lies = off(s, point, odd, partners);
      if (partners.size() > most || std::abs(lies) > std::abs(furthest)) {
        most = partners.size();
        culprit = point;
        furthest = lies;
      }
    }
    if (most == 0) break;
    for (const std::size_t partner : conflicts[culprit]) conflicts[partner].erase(culprit);
    conflicts.erase(culprit);
    odd.insert(culprit);
  }
  std::vector<OddPoint> all;
  all.reserve(odd.size());
  for (const std::size_t point : odd) all.push_back({point, off(s, point, odd, {})});
  return all;
}

}  // namespace areo::trend
