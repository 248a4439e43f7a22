// SPDX-License-Identifier: GPL-3.0-or-later
#include "agreement.hpp"

#include <algorithm>
#include <cmath>

#include "areo/core/error.hpp"

namespace areo::published {

Summary summary(const Comparison& comparison) {
  const auto& all = comparison.differences;
  if (all.size() < 2)
    throw Error{Errc::domain, "'" + comparison.what + "' compares fewer than two values"};
  const auto n = static_cast<double>(all.size());
  Summary s{all.size(), 0, 0, 0, 0, all[0].value, all[0].value, 0};
  for (const Difference& d : all) {
    s.mean += d.value / n;
    s.rms += d.value * d.value / n;
    s.largest = std::max(s.largest, std::abs(d.value));
    s.least = std::min(s.least, d.value);
    s.most = std::max(s.most, d.value);
    s.bound = std::max(s.bound, d.bound);
  }
  s.rms = std::sqrt(s.rms);
  for (const Difference& d : all) s.deviation += (d.value - s.mean) * (d.value - s.mean) / (n - 1);
  s.deviation = std::sqrt(s.deviation);
  return s;
}

const Comparisons& comparisons() {
  static const Comparisons all = [] {
    Comparisons made;
    add_densities(made);
    add_optics(made);
    add_drinks(made);
    add_boiling(made);
    return made;
  }();
  return all;
}

}  // namespace areo::published
