// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Arithmetic mean and experimental standard deviation.
#include <cmath>
#include <span>

namespace areo::uncertainty {

struct Moments {
  double mean;
  double deviation;  ///< of a single value, divisor n - 1; NaN for one value
};

/// @param x at least one value
/// @source [gum] 4.2.1, 4.2.2; [jcgm101] 7.6
inline Moments moments(std::span<const double> x) {
  const auto n = static_cast<double>(x.size());
  double sum = 0;
  for (const double v : x) sum += v;
  const double mean = sum / n;
  double squares = 0;
  for (const double v : x) squares += (v - mean) * (v - mean);
  return {mean, std::sqrt(squares / (n - 1))};
}

}  // namespace areo::uncertainty
