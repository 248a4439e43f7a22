// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// When the strength of a ferment passed a limit, or will.
#include <optional>
#include <span>
#include <utility>

#include "areo/trend/crossing.hpp"
#include "areo/trend/history.hpp"
#include "areo/uncertainty/decision.hpp"

namespace areo::trend {

/// What one reading says about a limit.
struct Decided {
  std::size_t point = 0;
  uncertainty::Side side = uncertainty::Side::cannot_tell;
  bool less = false;    ///< its estimate is less than the limit
  bool lifted = false;  ///< by bubbles, so that the strength is more than its estimate
};

/// What readings say together. Strength does not fall by itself: what is above a limit stays above,
/// and what is below was below before. Of many readings near a limit some decide by chance; such a
/// decision stands only as long as all that were made later, or earlier, lie on the same side, if
/// only by their estimates.
struct Bracket {
  /// The last point that was decided to lie below, with none before it whose estimate is not, and
  /// the first that was decided to lie above, with none after it whose estimate is not.
  std::optional<std::size_t> below_until{}, above_from{};
  /// A reading decides for above, and a later one for below: one of these two is off, and nothing
  /// is concluded.
  std::optional<std::pair<std::size_t, std::size_t>> contradiction{};

  /// On which side it was at this point, the last one.
  [[nodiscard]] uncertainty::Side side_at(std::size_t last) const;
};
/// @param decided  in order of time, those that are odd left out
[[nodiscard]] Bracket bracket_of(std::span<const Decided> decided);

/// Of the readings since the last addition; numbers as in History::points.
struct Passing : Bracket {
  double percent_vol = 0;
  double level = 0;  ///< probability wanted on each side
  /// Number of the last point that has a strength; nothing if there is none.
  std::optional<std::size_t> last{};
  /// When it was passed, by the curve through the strengths, as passed_by_curve(), within what the
  /// readings decide. None for an upper bound of a strength (acetic).
  Crossing by_curve{};

  /// On which side it was at the last reading.
  [[nodiscard]] uncertainty::Side side() const;
};

/// The day by a curve through these strengths, in time order, and the days between which it lies:
/// with 2 level - 1 or more also of courses that no such curve describes, as its interval at
/// `level` is taken (docs/explanation/series.md). It foretells nothing: there is no day after the
/// last strength.
/// @param zero   where the days are counted from
[[nodiscard]] Crossing passed_by_curve(std::span<const batch::Point* const> points, Moment zero,
                                       double limit, double level = 0.95);
/// Cuts a day, and what it lies between, to the days of two readings: the last below, the first
/// above. Where nothing is left, the curve says nothing.
void keep_within(Crossing& crossing, const std::optional<double>& below_until,
                 const std::optional<double>& above_from);

/// As analysis::decide_strength() reading by reading, and from a curve through all of them with
/// what they share. For a mixed culture `below` and the beginning of the interval hold for clean
/// yeast, too.
/// @param batch   the one that the history is of
/// @param limit   % vol, above zero
/// @param level   as analysis::decide_strength()
[[nodiscard]] Passing passing_of(batch::Batch& batch, const History& history, double limit,
                                 double level = 0.95);

/// What a reading would have to show: from the one number on, degassed, it would decide for below,
/// down from the other for above. Nothing where no reading on the scale would.
struct Deciding {
  std::optional<double> below{}, above{};
};
/// Of the instrument and at the temperature of the last reading with a strength.
/// @param passing  with such a reading
[[nodiscard]] Deciding deciding_readings(batch::Batch& batch, const History& history,
                                         const Passing& passing);

}  // namespace areo::trend
