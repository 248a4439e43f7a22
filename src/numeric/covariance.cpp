#include "areo/numeric/covariance.hpp"

namespace areo::numeric {

Covariance Covariance::diagonal(std::span<const double> u) {
  Covariance v{u.size()};
  for (std::size_t i = 0; i < u.size(); ++i) v.set(i, i, u[i] * u[i]);
  return v;
}

Covariance Covariance::without(std::size_t i) const {
  Covariance rest{n_ - 1};
  const auto old = [i](std::size_t k) { return k < i ? k : k + 1; };
  for (std::size_t a = 0; a < rest.n_; ++a)
    for (std::size_t b = a; b < rest.n_; ++b) rest.set(a, b, (*this)(old(a), old(b)));
  return rest;
}

}  // namespace areo::numeric
