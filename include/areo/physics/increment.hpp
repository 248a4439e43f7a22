// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// What one thing dissolved in water adds to the density, at one temperature.
#include <array>
#include <cstddef>

namespace areo::physics::detail {

/// rho(w) - rho(0) in kg/m³, as c[0] w + c[1] w² + ...: zero at zero. What depends on the
/// temperature alone is in the coefficients, so that several fractions pay for it once.
template <std::size_t N>
struct Increment {
  std::array<double, N> c;

  struct WithSlope {
    double value;  ///< kg/m³
    double slope;  ///< kg/m³ per unit of mass fraction
  };

  [[nodiscard]] constexpr double at(double w) const noexcept {
    double sum = 0;
    for (std::size_t k = N; k-- > 0;) sum = (sum + c[k]) * w;
    return sum;
  }
  /// The same value, bit by bit, and its derivative.
  [[nodiscard]] constexpr WithSlope with_slope(double w) const noexcept {
    double sum = 0, slope = 0;
    for (std::size_t k = N; k-- > 0;) {
      slope = slope * w + (sum + c[k]);
      sum = (sum + c[k]) * w;
    }
    return {sum, slope};
  }
};

}  // namespace areo::physics::detail
