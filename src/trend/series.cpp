#include "areo/trend/series.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "areo/measurement/difference.hpp"

namespace areo::trend {
namespace {

// One of a result, and when it was.
struct Quantity {
  Moment at;
  const measurement::Result* result;
  const measurement::Quantity* quantity;
};

constexpr double day_s = 86400;

// Quantities that err together; -1 counts them downwards.
Series joint(std::span<const Quantity> used, Moment zero, double sign) {
  Series s{{}, {}, numeric::Covariance{used.size()}};
  for (std::size_t i = 0; i < used.size(); ++i) {
    const auto& [at, result, quantity] = used[i];
    s.days.push_back(static_cast<double>(at.seconds - zero.seconds) / day_s);
    s.gravity.push_back(sign * quantity->value.estimate);
    s.covariance.set(i, i, quantity->value.u * quantity->value.u);
    for (std::size_t j = 0; j < i; ++j)
      s.covariance.set(
          i, j,
          measurement::covariance(*used[j].result, used[j].quantity->key, *result, quantity->key));
  }
  return s;
}

}  // namespace

uncertainty::Value Series::value(std::size_t point) const {
  return {gravity[point], std::sqrt(covariance(point, point))};
}

Series Series::only(std::span<const std::size_t> kept) const {
  Series some{{}, {}, covariance.only(kept)};
  for (const std::size_t i : kept) {
    some.days.push_back(days[i]);
    some.gravity.push_back(gravity[i]);
  }
  return some;
}

Series Series::from(std::size_t first) const {
  std::vector<std::size_t> kept(size() - first);
  std::iota(kept.begin(), kept.end(), first);
  return only(kept);
}

Series Series::without(std::size_t left_out) const {
  std::vector<std::size_t> kept;
  for (std::size_t i = 0; i < size(); ++i)
    if (i != left_out) kept.push_back(i);
  return only(kept);
}

uncertainty::Value Series::combination(std::span<const double> weights) const {
  double estimate = 0, variance = 0;
  for (std::size_t i = 0; i < size(); ++i) {
    estimate += weights[i] * gravity[i];
    for (std::size_t j = 0; j < size(); ++j) variance += weights[i] * covariance(i, j) * weights[j];
  }
  return {estimate, std::sqrt(variance)};
}

uncertainty::Value Series::fall(std::size_t from, std::size_t to) const {
  const double variance = covariance(from, from) + covariance(to, to) - 2 * covariance(from, to);
  return {gravity[from] - gravity[to], std::sqrt(std::max(variance, 0.0))};
}

Series series_of(std::span<const batch::Point> points, Moment zero) {
  std::vector<Quantity> used;
  for (const batch::Point& p : points)
    if (p.computed()) used.push_back({p.sample.at(), &p.result(), &p.gravity()});
  return joint(used, zero, 1);
}

Series strength_series_of(std::span<const batch::Point> points, Moment zero) {
  std::vector<Quantity> used;
  for (const batch::Point& p : points)
    if (p.has_strength())
      used.push_back({p.sample.at(), &p.result(), &p.result().at("alcohol_percent_vol")});
  return joint(used, zero, -1);
}

}  // namespace areo::trend
