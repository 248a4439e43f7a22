#include "areo/trend/series.hpp"

#include <cmath>

#include "areo/measurement/difference.hpp"

namespace areo::trend {

uncertainty::Value Series::value(std::size_t point) const {
  return {gravity[point], std::sqrt(covariance(point, point))};
}

Series Series::from(std::size_t first) const {
  const auto skip = static_cast<std::ptrdiff_t>(first);
  Series rest{{days.begin() + skip, days.end()},
              {gravity.begin() + skip, gravity.end()},
              numeric::Covariance{size() - first}};
  for (std::size_t i = 0; i < rest.size(); ++i)
    for (std::size_t j = i; j < rest.size(); ++j)
      rest.covariance.set(i, j, covariance(first + i, first + j));
  return rest;
}

Series Series::without(std::size_t left_out) const {
  Series rest{days, gravity, covariance.without(left_out)};
  rest.days.erase(rest.days.begin() + static_cast<std::ptrdiff_t>(left_out));
  rest.gravity.erase(rest.gravity.begin() + static_cast<std::ptrdiff_t>(left_out));
  return rest;
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
  std::vector<double> weights(size());
  weights[from] += 1;
  weights[to] -= 1;
  return combination(weights);
}

Series series_of(std::span<const batch::Point> points, Moment zero) {
  constexpr double day_s = 86400;
  std::vector<const batch::Point*> used;
  for (const batch::Point& p : points)
    if (p.computed()) used.push_back(&p);
  Series s{{}, {}, numeric::Covariance{used.size()}};
  for (std::size_t i = 0; i < used.size(); ++i) {
    const measurement::Quantity& q = used[i]->gravity();
    s.days.push_back(static_cast<double>(used[i]->sample.at().seconds - zero.seconds) / day_s);
    s.gravity.push_back(q.value.estimate);
    s.covariance.set(i, i, q.value.u * q.value.u);
    for (std::size_t j = 0; j < i; ++j)
      s.covariance.set(i, j,
                       measurement::covariance(used[j]->result(), used[j]->gravity().key,
                                               used[i]->result(), q.key));
  }
  return s;
}

}  // namespace areo::trend
