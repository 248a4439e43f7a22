// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/numeric/covariance.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "areo/core/error.hpp"

namespace areo::numeric {

Covariance Covariance::diagonal(std::span<const double> u) {
  Covariance v{u.size()};
  for (std::size_t i = 0; i < u.size(); ++i) v.set(i, i, u[i] * u[i]);
  return v;
}

double Covariance::variance_of(std::span<const double> weights) const {
  double sum = 0;
  for (std::size_t i = 0; i < n_; ++i)
    for (std::size_t j = 0; j < n_; ++j) sum += weights[i] * weights[j] * (*this)(i, j);
  return std::max(sum, 0.0);
}

Covariance Covariance::only(std::span<const std::size_t> kept) const {
  Covariance some{kept.size()};
  for (std::size_t a = 0; a < kept.size(); ++a)
    for (std::size_t b = a; b < kept.size(); ++b) some.set(a, b, (*this)(kept[a], kept[b]));
  return some;
}

Covariance Covariance::without(std::size_t i) const {
  std::vector<std::size_t> others;
  for (std::size_t k = 0; k < n_; ++k)
    if (k != i) others.push_back(k);
  return only(others);
}

std::vector<double> cholesky(const Covariance& v) {
  const std::size_t n = v.size();
  if (!std::all_of(v.elements().begin(), v.elements().end(),
                   [](double e) { return std::isfinite(e); }))
    throw Error{Errc::domain, "a covariance needs finite elements"};
  // What rounding leaves of a difference that should be nothing, relative to the variances.
  const double noise = 8 * static_cast<double>(n) * std::numeric_limits<double>::epsilon();
  const auto refuse = [](std::size_t i, std::size_t j) {
    throw Error{Errc::domain,
                fmt::format("values {} and {} cannot err together as stated: their correlations "
                            "contradict those of other values",
                            j + 1, i + 1),
                "make the correlations smaller, or state what the values share"};
  };
  std::vector<double> l(n * n, 0.0);
  for (std::size_t j = 0; j < n; ++j) {
    double scale = 0;  // of the column: 1 / √ of what the values before leave of the variance
    for (std::size_t i = j; i < n; ++i) {
      double known = 0;
      for (std::size_t k = 0; k < j; ++k) known += l[i * n + k] * l[j * n + k];
      const double rest = v(i, j) - known;
      if (i == j) {
        if (v(j, j) < 0 || rest < -noise * v(j, j)) refuse(i, j);
        if (rest > noise * v(j, j)) scale = 1 / std::sqrt(rest);
      } else if (scale == 0 && std::abs(rest) > std::sqrt(noise * v(j, j) * std::abs(v(i, i)))) {
        refuse(i, j);  // value j is fixed by those before it, so nothing may be left
      }
      l[i * n + j] = rest * scale;
    }
  }
  return l;
}

std::vector<double> definite_cholesky(const Covariance& v) {
  std::vector<double> l = cholesky(v);
  for (std::size_t i = 0; i < v.size(); ++i)
    if (!(l[i * v.size() + i] > 0))
      throw Error{
          Errc::domain,
          fmt::format("a fit needs uncertainties above zero, each value with one of its own; "
                      "value {} has none",
                      i + 1)};
  return l;
}

std::vector<double> solve(const Covariance& v, std::span<const double> r) {
  const std::size_t n = v.size();
  const std::vector<double> l = definite_cholesky(v);
  std::vector<double> w(r.begin(), r.end());
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t k = 0; k < i; ++k) w[i] -= l[i * n + k] * w[k];
    w[i] /= l[i * n + i];
  }
  for (std::size_t i = n; i-- > 0;) {
    for (std::size_t k = i + 1; k < n; ++k) w[i] -= l[k * n + i] * w[k];
    w[i] /= l[i * n + i];
  }
  return w;
}

}  // namespace areo::numeric
