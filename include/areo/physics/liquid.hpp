// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// The hub: what a liquid consists of. Every reading is solved to a Liquid, every output is
// computed from one.
#include <functional>

#include "areo/core/scales.hpp"
#include "areo/core/units.hpp"

namespace areo::physics {

struct Liquid {
  ExtractFraction extract{0};  ///< dissolved extract, counted as sucrose
  EthanolFraction ethanol{0};
  friend constexpr bool operator==(const Liquid&, const Liquid&) = default;
};

/// A density as an instrument showed it: its reading of a drink depends a little on the ethanol.
using DensityRead = std::function<Density(EthanolFraction)>;

}  // namespace areo::physics
