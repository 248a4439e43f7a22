// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Readings of one hydrometer, whose offset they share.
#include <vector>

#include "areo/trend/series.hpp"

namespace areo::trend::testing {

using V = std::vector<double>;
inline constexpr double shared = 0.0010, own = 0.0005;

inline Series series(const V& days, const V& gravity) {
  Series s{days, gravity, numeric::SharedErrors::independent(V(days.size(), own)), {}};
  for (std::size_t i = 0; i < s.size(); ++i) s.errors.add_share(i, 0, shared);
  return s;
}

// One a day.
inline Series daily(const V& gravity) {
  V days;
  for (std::size_t i = 0; i < gravity.size(); ++i) days.push_back(static_cast<double>(i));
  return series(days, gravity);
}

}  // namespace areo::trend::testing
