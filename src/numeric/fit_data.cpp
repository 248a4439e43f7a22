// SPDX-License-Identifier: GPL-3.0-or-later
#include "fit_data.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace areo::numeric {

bool all_finite(std::span<const double> values) {
  return std::all_of(values.begin(), values.end(), [](double a) { return std::isfinite(a); });
}

void require_fit_data(std::span<const double> x, std::span<const double> y, const Covariance& v) {
  if (y.size() != x.size() || v.size() != x.size())
    throw Error{
        Errc::domain,
        fmt::format("a fit needs as many values as places and uncertainties; got {} values, "
                    "{} places, {} uncertainties",
                    y.size(), x.size(), v.size())};
  if (!all_finite(x) || !all_finite(y) || !all_finite(v.elements()))
    throw Error{Errc::domain, "a fit needs finite values and uncertainties"};
}

}  // namespace areo::numeric
