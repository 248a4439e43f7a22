// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// How many values err together, kept as the parts of their errors.
#include <cstddef>
#include <span>
#include <vector>

#include "areo/numeric/covariance.hpp"

namespace areo::numeric {

/// Each value has an error of its own, and a share in some of a number of common ones, which are
/// independent of each other. Memory and time grow with the number of shares, not with the square
/// of the number of values.
class SharedErrors {
 public:
  /// The share of one value in a common error, in the unit of the value.
  struct Share {
    std::size_t number;
    double u;
  };

  /// n values that are known exactly.
  explicit SharedErrors(std::size_t n = 0) : own_(n, 0.0), shares_(n) {}
  /// Values with standard uncertainties u that share nothing.
  [[nodiscard]] static SharedErrors independent(std::span<const double> u);

  [[nodiscard]] std::size_t size() const noexcept { return own_.size(); }
  /// Standard uncertainty of what value i has by itself.
  [[nodiscard]] double own(std::size_t i) const { return own_[i]; }
  void set_own(std::size_t i, double u) { own_[i] = u; }
  /// Gives value i its share in a common error.
  /// @param number  of the error, larger than of those that the value has a share in already
  void add_share(std::size_t i, std::size_t number, double u) { shares_[i].push_back({number, u}); }
  [[nodiscard]] std::span<const Share> shares(std::size_t i) const { return shares_[i]; }

  /// Covariance of values i and j.
  [[nodiscard]] double operator()(std::size_t i, std::size_t j) const;
  /// Of the sum of the values, each times its weight; n weights.
  [[nodiscard]] double variance_of(std::span<const double> weights) const;
  /// Some of the values, in this order. One that is named again is another value with the same
  /// shares, and an error of its own.
  [[nodiscard]] SharedErrors only(std::span<const std::size_t> kept) const;
  /// The same as a matrix.
  [[nodiscard]] Covariance matrix() const;

 private:
  std::vector<double> own_;
  std::vector<std::vector<Share>> shares_;
};

}  // namespace areo::numeric
