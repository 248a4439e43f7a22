// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/core/told_apart.hpp"

#include <fmt/format.h>

#include <cmath>

namespace areo {

int telling_place(double a, double b, int place) {
  constexpr int most_further = 4;
  for (int further = 0; further <= most_further; ++further) {
    const double unit = std::pow(10.0, -(place + further));
    if (std::round(a / unit) != std::round(b / unit)) return place + further;
  }
  return place;
}

std::string beside_expanded(double value, double expanded) {
  constexpr int usual = 2, most = 6;
  std::string least_digits;
  for (int digits = usual; digits <= most; ++digits) {
    const std::string size = fmt::format("{:.{}g}", std::abs(value), digits);
    const std::string doubt = fmt::format("{:.{}g}", expanded, digits);
    std::string both = fmt::format("{:+.{}g} ± {}", value, digits, doubt);
    if (size != doubt) return both;
    if (digits == usual) least_digits = std::move(both);
  }
  return least_digits;
}

}  // namespace areo
