#pragma once
// When the strength of a ferment passed a limit, or will.
#include <optional>

#include "areo/trend/crossing.hpp"
#include "areo/trend/history.hpp"

namespace areo::trend {

/// Of the readings since the last addition.
struct Passing {
  double percent_vol = 0;
  double level = 0;  ///< probability wanted on each side
  /// Number in History::points of the last one that was decided to lie below, with none before it
  /// that was not.
  std::optional<std::size_t> below_until{};
  /// Of the first one from which on all are decided to lie above.
  std::optional<std::size_t> above_from{};
  /// By the curve through the strengths; days as in the history. With the level it was below at the
  /// one end of the interval and above at the other. For an upper bound of a strength (acetic)
  /// there is the beginning only.
  Crossing by_curve{};
};

/// As measurement::decide_strength() reading by reading, and from a curve through all of them with
/// what they share. For a mixed culture `below` and the beginning of the interval hold for clean
/// yeast, too.
/// @param batch   the one that the history is of
/// @param limit   % vol, above zero
/// @param level   as measurement::decide_strength()
[[nodiscard]] Passing passing_of(batch::Batch& batch, const History& history, double limit,
                                 double level = 0.95);

}  // namespace areo::trend
