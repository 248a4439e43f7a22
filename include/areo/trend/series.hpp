// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Gravities of one ferment in order of time, which err together.
#include <cstddef>
#include <span>
#include <vector>

#include "areo/batch/batch.hpp"
#include "areo/numeric/shared_errors.hpp"

namespace areo::trend {

/// As many days as gravities, and errors for as many. A day is 24 hours.
struct Series {
  std::vector<double> days;        ///< never falling; where zero lies is the maker's choice
  std::vector<double> gravity;     ///< SG 20/20
  numeric::SharedErrors errors{};  ///< each has one of its own
  /// Whether bubbles may have lifted the hydrometer: the gravity is at most this. Empty: none.
  std::vector<bool> lifted{};
  /// SG: of the stem, where somebody reads nothing but whole divisions (count_rounding()); else 0.
  double division = 0;

  [[nodiscard]] std::size_t size() const { return days.size(); }
  [[nodiscard]] bool is_lifted(std::size_t point) const { return !lifted.empty() && lifted[point]; }
  /// One gravity by itself. Its degrees of freedom are taken as infinite, as all of the series.
  [[nodiscard]] uncertainty::Value value(std::size_t point) const;
  /// Some of the points, in order of time.
  [[nodiscard]] Series only(std::span<const std::size_t> kept) const;
  /// The points from number `first` on.
  [[nodiscard]] Series from(std::size_t first) const;
  /// The points without number `left_out`.
  [[nodiscard]] Series without(std::size_t left_out) const;
  /// Sum of weights[i] gravity[i], with what the gravities share.
  [[nodiscard]] uncertainty::Value combination(std::span<const double> weights) const;
  /// How far it fell from one point to a later one: positive when sugar was consumed.
  [[nodiscard]] uncertainty::Value fall(std::size_t from, std::size_t to) const;
};

/// What the points of one bottle say together; those that could not be computed are left out.
/// @param points in order of time
/// @param zero   where the days are counted from
[[nodiscard]] Series series_of(std::span<const batch::Point* const> points, Moment zero);
/// Their strengths, % vol, in place of the gravities, counted downwards so that they fall as those
/// do; points that have none are left out.
[[nodiscard]] Series strength_series_of(std::span<const batch::Point* const> points, Moment zero);

}  // namespace areo::trend
