// SPDX-License-Identifier: GPL-3.0-or-later
#include "line.hpp"

#include <cmath>

#include "areo/numeric/quantile.hpp"

namespace areo::trend {

double Line::weight(std::size_t place) const {
  const double u = scatter_ * series_->errors.own(used_[place]);
  return 1 / (u * u);
}
double Line::from_mean(std::size_t place) const { return series_->days[used_[place]] - mean_day_; }
double Line::residual(std::size_t place) const {
  return series_->gravity[used_[place]] - (mean_ - pace_.estimate * from_mean(place));
}

double Line::days() const { return series_->days[used_.back()] - series_->days[used_.front()]; }

Line::Line(const Series& series, std::vector<std::size_t> used, double scatter)
    : series_{&series}, used_{std::move(used)}, scatter_{scatter} {
  const std::size_t n = used_.size();
  for (std::size_t i = 0; i < n; ++i) {
    sum_ += weight(i);
    mean_day_ += weight(i) * series.days[used_[i]];
    mean_ += weight(i) * series.gravity[used_[i]];
  }
  mean_day_ /= sum_;
  mean_ /= sum_;
  std::vector<double> slope(n);
  for (std::size_t i = 0; i < n; ++i) {
    slope[i] = -weight(i) * from_mean(i);
    spread_ += weight(i) * from_mean(i) * from_mean(i);
  }
  if (!stands()) return;
  std::vector<double> shared;
  for (std::size_t i = 0; i < n; ++i) {
    slope[i] /= spread_;
    pace_.estimate += slope[i] * series.gravity[used_[i]];
    for (const auto& [number, u] : series.errors.shares(used_[i])) {
      if (shared.size() <= number) shared.resize(number + 1);
      shared[number] += slope[i] * u;
    }
  }
  for (const double s : shared) shared_variance_ += s * s;
  pace_.u = std::sqrt(1 / spread_ + shared_variance_);
}

std::optional<uncertainty::Value> Line::pace_without(std::size_t place) const {
  const double w = weight(place), day = from_mean(place);
  const double leverage = w / sum_ + w * day * day / spread_;
  const double spread = spread_ - w * day * day * sum_ / (sum_ - w);
  constexpr double nothing = 1e-9;  // what rounding leaves of it
  if (leverage >= 1 - nothing || !(spread > nothing * spread_)) return std::nullopt;
  return uncertainty::Value{pace_.estimate + w * day * residual(place) / (spread_ * (1 - leverage)),
                            std::sqrt(1 / spread + shared_variance_)};
}

bool Line::refuted() const {
  constexpr double level = 0.95;
  if (used_.size() < 3) return false;
  double chi_squared = 0;
  for (std::size_t i = 0; i < used_.size(); ++i)
    chi_squared += weight(i) * residual(i) * residual(i);
  return chi_squared > numeric::chi_squared_quantile(level, static_cast<double>(used_.size()) - 2);
}

}  // namespace areo::trend
