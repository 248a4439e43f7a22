// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// A series with more readings than its hours can tell apart, as one with fewer.
#include <cstddef>
#include <span>
#include <vector>

#include "areo/trend/series.hpp"

namespace areo::trend {

/// One point for each few hours that have readings, the numbers of those, and which of them it is.
struct Groups {
  Series series;
  std::vector<std::vector<std::size_t>> members;
  std::vector<std::size_t> middle;
};

/// How many days a group is long; 0 where every reading is one.
/// @param days  of the readings, never falling
[[nodiscard]] double days_of_group(std::span<const double> days);

/// A series with more than eight readings a day, as a sensor writes them, by quarters of a day;
/// longer ones so that no more than 200 groups remain. Of each group the mean day, the median
/// gravity and what its readings share; its own error is that of one reading, as nobody knows what
/// hours have in common. Lifted readings count only where there are no others. Other series stay
/// as they are. Time and memory grow as the number of readings.
[[nodiscard]] Groups grouped(const Series& series);

}  // namespace areo::trend
