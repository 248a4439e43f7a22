// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// What the readings of one bottle tell together: what they did, what is odd, where it leads.
#include <optional>
#include <string>
#include <vector>

#include "areo/batch/batch.hpp"
#include "areo/trend/forecast.hpp"
#include "areo/trend/growth_curve.hpp"
#include "areo/trend/state.hpp"

namespace areo::trend {

/// A reading that does not go with the others. Only a person excludes it.
struct Outlier {
  std::size_t point = 0;  ///< number in History::points
  double off = 0;         ///< SG: by how much it lies above what the others say
  std::string likely;     ///< what may have happened
};

struct History {
  /// In order of time, with those that could not be computed. A bottle begins with what was read of
  /// the batch before it was filled. Of many readings those that stand for a few hours each, and
  /// those that a list shows.
  std::vector<batch::Point> points;
  std::size_t readings = 0;        ///< how many samples there are in all
  std::vector<std::size_t> shown;  ///< numbers of the points that a list shows
  /// What each shown point fell by a day since the one shown before it; nothing for points nearer
  /// than a step, and across an addition.
  std::vector<std::optional<uncertainty::Value>> per_day;
  std::size_t since = 0;             ///< number of the first point after the last addition
  std::size_t readings_since = 0;    ///< how many samples there are from there on
  std::vector<std::size_t> counted;  ///< numbers of the points of the series, in its order
  Series series;  ///< those from there on that stand for readings (grouped()) and were computed
  Moment zero;    ///< where its days begin
  State state;
  Forecast outlook;
  std::optional<GrowthCurve> course;  ///< through those that count, for pictures
  std::vector<Outlier> odd;

  /// Whether a point is among them.
  [[nodiscard]] bool is_odd(std::size_t point) const;
};

/// The day of a moment, counted as in the history.
[[nodiscard]] double day_of(const History& history, Moment m);
/// The moment of a day of the history.
[[nodiscard]] Moment moment_of(const History& history, double day);

/// What a list of a history shows.
enum class Shown {
  few,  ///< as batch::listed()
  all,  ///< every reading: 30 kB each
};

/// Time grows as the number of readings; memory as that of the points.
/// @param bottle  "" is the batch as a whole
/// @throws Error{domain} if it has no reading that could be computed
[[nodiscard]] History history_of(batch::Batch& batch, const std::string& bottle,
                                 Shown shown = Shown::few);

}  // namespace areo::trend
