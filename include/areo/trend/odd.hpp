// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Readings that do not go with the others, because gravity does not rise by itself.
#include <cstddef>
#include <vector>

#include "areo/trend/series.hpp"

namespace areo::trend {

/// How many times their uncertainty the readings of a series scatter, if it is certain (95 %) that
/// they scatter more; else 1. Only what rises from one to the next tells, as what never rises by
/// itself rises by its scatter, however it falls; the largest tenth may be slips.
[[nodiscard]] double scatter_of(const Series& series);

struct OddPoint {
  std::size_t point = 0;  ///< number in the series
  double off = 0;         ///< SG: by how much it lies above its neighbours
};

/// Two readings conflict where the later one lies higher, by more than their uncertainties and
/// what bubbles may add to the later one (10 thousandths, a judgement) allow: so much that any two
/// of a clean series do in 5 % of such series. Each is compared with the thirty before it. Odd is
/// the one with most conflicts, then, without it, the next; of two, the one that lies further off
/// the line between its neighbours.
/// @param scatter  as scatter_of()
[[nodiscard]] std::vector<OddPoint> odd_points(const Series& series, double scatter);

}  // namespace areo::trend
