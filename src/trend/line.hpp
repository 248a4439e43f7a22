// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// The straight line through a stretch of a series.
#include <optional>
#include <vector>

#include "areo/trend/series.hpp"

namespace areo::trend {

// Weighted with what each reading has of its own, widened by the scatter; what they share counts in
// its uncertainty. Pace is the fall a day.
class Line {
 public:
  // At least two of the points, in order of time.
  Line(const Series& series, std::vector<std::size_t> used, double scatter);

  // Whether its points lie apart.
  [[nodiscard]] bool stands() const { return spread_ > 0; }
  [[nodiscard]] const std::vector<std::size_t>& used() const { return used_; }
  [[nodiscard]] double days() const;
  [[nodiscard]] const uncertainty::Value& pace() const { return pace_; }
  // Without one of its points; nothing if the others do not lie apart.
  [[nodiscard]] std::optional<uncertainty::Value> pace_without(std::size_t place) const;
  // Of its residuals, with points - 2 degrees of freedom.
  [[nodiscard]] bool refuted() const;

 private:
  [[nodiscard]] double weight(std::size_t place) const;
  [[nodiscard]] double from_mean(std::size_t place) const;
  [[nodiscard]] double residual(std::size_t place) const;

  const Series* series_;
  std::vector<std::size_t> used_;
  double scatter_, sum_ = 0, mean_day_ = 0, mean_ = 0, spread_ = 0, shared_variance_ = 0;
  uncertainty::Value pace_{};
};

}  // namespace areo::trend
