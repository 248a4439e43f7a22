#pragma once
// The hub: what a liquid consists of. Every reading is solved to a Liquid, every output is
// computed from one.
#include "areo/core/scales.hpp"

namespace areo::physics {

struct Liquid {
  ExtractFraction extract{0};  ///< dissolved extract, counted as sucrose
  EthanolFraction ethanol{0};
  friend constexpr bool operator==(const Liquid&, const Liquid&) = default;
};

}  // namespace areo::physics
