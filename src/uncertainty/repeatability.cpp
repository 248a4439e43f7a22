// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/uncertainty/repeatability.hpp"

#include <cmath>
#include <numeric>

#include "areo/core/error.hpp"

namespace areo::uncertainty {

Repeatability pooled_repeatability(std::span<const std::vector<double>> samples) {
  Repeatability r;
  double squares = 0;
  for (const std::vector<double>& sample : samples) {
    if (sample.size() < 2) continue;
    const auto n = static_cast<double>(sample.size());
    const double mean = std::accumulate(sample.begin(), sample.end(), 0.0) / n;
    for (const double x : sample) {
      if (!std::isfinite(x)) throw Error{Errc::domain, "a repeated reading is not a finite number"};
      squares += (x - mean) * (x - mean);
    }
    r.degrees_of_freedom += n - 1;
    ++r.samples;
  }
  if (r.degrees_of_freedom > 0) r.s = std::sqrt(squares / r.degrees_of_freedom);
  return r;
}

}  // namespace areo::uncertainty
