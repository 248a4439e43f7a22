// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/instruments/repeated.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <vector>

#include "areo/core/error.hpp"

namespace areo::instruments {

Repeated mean_of(std::span<const double> readings, double half_width,
                 const uncertainty::Repeatability& pooled) {
  if (readings.empty() || !(half_width > 0) || !std::isfinite(half_width))
    throw Error{Errc::domain, "a mean needs readings, and a width above zero of each"};
  const std::vector<double> sample(readings.begin(), readings.end());
  const auto n = static_cast<double>(sample.size());
  const double own = uncertainty::pooled_repeatability(std::span{&sample, 1}).s / std::sqrt(n);
  Repeated r;
  r.mean = std::accumulate(sample.begin(), sample.end(), 0.0) / n;
  if (!std::isfinite(r.mean))
    throw Error{Errc::domain, "a repeated reading is not a finite number"};
  const std::string of =
      sample.size() == 1 ? "one reading" : fmt::format("mean of {} readings", sample.size());
  const double step = half_width / std::sqrt(12.0);
  if (pooled.degrees_of_freedom >= enough_degrees_of_freedom) {
    r.u = pooled.s / std::sqrt(n);
    r.degrees_of_freedom = pooled.degrees_of_freedom;
    r.type_a = true;
    r.provenance = fmt::format("{}, scatter pooled from {} samples", of, pooled.samples);
  } else {
    r.u = std::max(half_width / std::sqrt(6 * n), own);
    r.provenance = of + (r.u > own ? ", each read by eye" : ", by their own scatter");
  }
  if (r.u >= step) return r;
  return {r.mean, step, std::numeric_limits<double>::infinity(), false,
          of + ", no better than the steps they are noted in"};
}

}  // namespace areo::instruments
