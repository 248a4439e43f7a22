#pragma once
// What a ferment is doing, and the test behind it.
#include <optional>

#include "areo/trend/series.hpp"

namespace areo::trend {

/// A change between two points of a series.
struct Fall {
  double days = 0;           ///< how far they lie apart
  uncertainty::Value value;  ///< of the gravity; positive when it fell
  std::size_t points = 2;    ///< how many readings it rests on

  /// The largest fall that goes with it, with 95 % on either side.
  [[nodiscard]] double bound() const { return value.estimate + value.expanded(); }
  [[nodiscard]] double per_day() const { return value.estimate / days; }
};

enum class Phase {
  lag,      ///< no fall since the first reading that could be told from none
  active,   ///< it falls, no slower than it ever did as far as can be told
  slowing,  ///< slower than it was
  steady,   ///< no fall, over long enough and with readings that would have shown one
  unclear,  ///< neither is sure
};

struct State {
  Phase phase = Phase::unclear;
  std::optional<Fall> whole{};    ///< from the first reading to the last; none of a single one
  std::optional<Fall> recent{};   ///< the last one, over at least shortest_step_days
  std::optional<Fall> fastest{};  ///< the fastest step before it
  std::optional<Fall> steady{};   ///< the longest stretch at the end without a fall
};

/// A stretch is steady from so many readings over so many days on ("the same for two or three
/// days": common practice, no source), if no fall can be told from none and the largest one that
/// goes with the readings is not faster than this a day: half a division of a usual stem, a
/// judgement.
constexpr std::size_t steady_points = 3;
constexpr double steady_days = 2;
constexpr double steady_per_day = 0.001;
/// Nearer readings are no step: their difference is the eye's. A judgement.
constexpr double shortest_step_days = 0.45;

/// Decides with 95 %: that it fell at all, that the last step is slower than the fastest (with the
/// level shared among the steps that could have been it).
/// @param series in order of time, without a jump between its points: nothing was added
[[nodiscard]] State state_of(const Series& series);

}  // namespace areo::trend
