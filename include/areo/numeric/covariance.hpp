// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Covariance matrix of a few values: symmetric, with the variances on its diagonal.
#include <cstddef>
#include <span>
#include <vector>

namespace areo::numeric {

class Covariance {
 public:
  /// n values that are known exactly.
  explicit Covariance(std::size_t n) : n_{n}, elements_(n * n, 0.0) {}
  /// Independent values with standard uncertainties u.
  [[nodiscard]] static Covariance diagonal(std::span<const double> u);

  [[nodiscard]] std::size_t size() const noexcept { return n_; }
  [[nodiscard]] double operator()(std::size_t i, std::size_t j) const {
    return elements_[i * n_ + j];
  }
  /// Sets the covariance of values i and j, both ways round.
  void set(std::size_t i, std::size_t j, double value) {
    elements_[i * n_ + j] = elements_[j * n_ + i] = value;
  }
  /// Some of the values, in this order.
  [[nodiscard]] Covariance only(std::span<const std::size_t> kept) const;
  /// The same values without number i.
  [[nodiscard]] Covariance without(std::size_t i) const;
  /// Variance of the sum of the values, each times its weight.
  /// @param weights n of them
  [[nodiscard]] double variance_of(std::span<const double> weights) const;
  /// Row by row, n * n elements.
  [[nodiscard]] std::span<const double> elements() const noexcept { return elements_; }

 private:
  std::size_t n_;
  std::vector<double> elements_;
};

/// Lower triangular factor L of v = L Lᵀ, row by row: independent values of uncertainty 1,
/// multiplied by L, get the covariance v. Values that depend wholly on the ones before them (a
/// correlation of ±1) leave a zero on the diagonal.
/// @throws Error{domain} for elements that are not finite, and if v is no covariance: no values can
///         err together like this
[[nodiscard]] std::vector<double> cholesky(const Covariance& v);

/// The same for values that each have an uncertainty of their own: no zero on the diagonal.
/// @throws Error{domain} as cholesky(), and if a value has none
[[nodiscard]] std::vector<double> definite_cholesky(const Covariance& v);

/// w with v w = r.
/// @throws Error{domain} as definite_cholesky()
[[nodiscard]] std::vector<double> solve(const Covariance& v, std::span<const double> r);

}  // namespace areo::numeric
