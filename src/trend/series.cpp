// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/trend/series.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <set>
#include <tuple>

#include "areo/analysis/difference.hpp"
#include "counted.hpp"

namespace areo::trend {
namespace {

// One of a result, and when it was.
struct Quantity {
  Moment at;
  const measurement::Result* result;
  const measurement::Quantity* quantity;
  bool lifted;
};

// What makes inputs of two results the same (measurement/difference.hpp), and the how-manieth of
// such inputs in its result one is.
struct Error {
  const uncertainty::Input* input;
  std::size_t occurrence;

  [[nodiscard]] auto key() const {
    return std::tie(input->name, input->unit, input->value, input->u, input->provenance,
                    occurrence);
  }
  friend bool operator<(const Error& a, const Error& b) {
    if (a.key() != b.key()) return a.key() < b.key();
    return a.input->thing < b.input->thing;
  }
};

// An error, and what it contributes to one quantity.
struct Part {
  Error error;
  double share;
};

std::vector<Part> parts_of(const Quantity& q) {
  const std::span<const double> shares = analysis::shares_of(*q.result, q.quantity->key);
  const auto inputs = q.result->inputs.all();
  std::vector<Part> parts;
  std::set<Error> seen;
  for (std::size_t i = 0; i < inputs.size(); ++i) {
    if (shares[i] == 0) continue;
    Error error{&inputs[i], 0};
    while (!seen.insert(error).second) ++error.occurrence;
    parts.push_back({error, shares[i]});
  }
  return parts;
}

// Quantities that err together; -1 counts them downwards.
Series joint(std::span<const Quantity> used, Moment zero, double sign) {
  Series s{{}, {}, numeric::SharedErrors{used.size()}, {}};
  std::vector<std::vector<Part>> parts;
  std::map<Error, std::size_t> met;  // how many times
  for (const Quantity& q : used) {
    s.days.push_back(days_between(zero, q.at));
    s.gravity.push_back(sign * q.quantity->value.estimate);
    s.lifted.push_back(q.lifted);
    for (const Part& part : parts.emplace_back(parts_of(q))) ++met[part.error];
  }
  std::map<Error, std::size_t> number;
  for (const auto& [error, times] : met)
    if (times > 1) number.emplace(error, number.size());
  for (std::size_t i = 0; i < used.size(); ++i) {
    double own = 0;
    std::vector<numeric::SharedErrors::Share> shared;
    for (const auto& [error, share] : parts[i])
      if (const auto n = number.find(error); n != number.end())
        shared.push_back({n->second, sign * share});
      else
        own += share * share;
    std::sort(shared.begin(), shared.end(),
              [](const auto& a, const auto& b) { return a.number < b.number; });
    for (const auto& [n, share] : shared) s.errors.add_share(i, n, share);
    s.errors.set_own(i, std::sqrt(own));
  }
  return s;
}

}  // namespace

uncertainty::Value Series::value(std::size_t point) const {
  return {gravity[point], std::sqrt(errors(point, point))};
}

Series Series::only(std::span<const std::size_t> kept) const {
  Series some{{}, {}, errors.only(kept), {}, division};
  for (const std::size_t i : kept) {
    some.days.push_back(days[i]);
    some.gravity.push_back(gravity[i]);
    some.lifted.push_back(is_lifted(i));
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
  const double estimate = std::inner_product(weights.begin(), weights.end(), gravity.begin(), 0.0);
  return {estimate, std::sqrt(errors.variance_of(weights))};
}

uncertainty::Value Series::fall(std::size_t from, std::size_t to) const {
  const double variance = errors(from, from) + errors(to, to) - 2 * errors(from, to);
  return {gravity[from] - gravity[to], std::sqrt(std::max(variance, 0.0))};
}

Series series_of(std::span<const batch::Point* const> points, Moment zero) {
  std::vector<Quantity> used;
  for (const batch::Point* p : points)
    if (p->computed()) used.push_back({p->sample.at(), &p->result(), &p->gravity(), p->lifted});
  return joint(used, zero, 1);
}

Series strength_series_of(std::span<const batch::Point* const> points, Moment zero) {
  std::vector<Quantity> used;
  for (const batch::Point* p : points)
    if (p->has_strength())
      used.push_back(
          {p->sample.at(), &p->result(), &p->result().at("alcohol_percent_vol"), p->lifted});
  return joint(used, zero, -1);
}

}  // namespace areo::trend
