// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/numeric/shared_errors.hpp"

namespace areo::numeric {

SharedErrors SharedErrors::independent(std::span<const double> u) {
  SharedErrors e{u.size()};
  e.own_.assign(u.begin(), u.end());
  return e;
}

double SharedErrors::operator()(std::size_t i, std::size_t j) const {
  double sum = i == j ? own_[i] * own_[i] : 0;
  auto b = shares_[j].begin();
  for (const Share& a : shares_[i]) {
    while (b != shares_[j].end() && b->number < a.number) ++b;
    if (b != shares_[j].end() && b->number == a.number) sum += a.u * b->u;
  }
  return sum;
}

double SharedErrors::variance_of(std::span<const double> weights) const {
  double sum = 0;
  std::vector<double> common;
  for (std::size_t i = 0; i < size(); ++i) {
    sum += weights[i] * weights[i] * own_[i] * own_[i];
    for (const Share& s : shares_[i]) {
      if (common.size() <= s.number) common.resize(s.number + 1);
      common[s.number] += weights[i] * s.u;
    }
  }
  for (const double c : common) sum += c * c;
  return sum;
}

SharedErrors SharedErrors::only(std::span<const std::size_t> kept) const {
  SharedErrors some{kept.size()};
  for (std::size_t a = 0; a < kept.size(); ++a) {
    some.own_[a] = own_[kept[a]];
    some.shares_[a] = shares_[kept[a]];
  }
  return some;
}

Covariance SharedErrors::matrix() const {
  Covariance v{size()};
  for (std::size_t i = 0; i < size(); ++i)
    for (std::size_t j = i; j < size(); ++j) v.set(i, j, (*this)(i, j));
  return v;
}

}  // namespace areo::numeric
