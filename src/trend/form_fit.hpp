// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// A form of the course through a series: fits of it, without intervals.
#include <array>
#include <memory>
#include <optional>
#include <vector>

#include "areo/numeric/curve.hpp"
#include "areo/trend/growth_curve.hpp"

namespace areo::trend {

// Parameters of the fit, in this order.
enum Place : std::size_t { start_at, final_at, end_at, rate_at, parameters };
using Theta = std::array<double, parameters>;

[[nodiscard]] Theta theta_of(const numeric::CurveFit& fit);

// What the day among the parameters is the day of: of coming so near to the final gravity, or of
// passing a gravity.
struct Mark {
  double near = 0;
  std::optional<double> passed{};

  [[nodiscard]] double gravity(const Theta& p) const { return passed.value_or(p[final_at] + near); }
};

// The part of the sugar that is consumed at z.
[[nodiscard]] double consumed(Form form, double z);

// Day of the middle.
[[nodiscard]] double middle(Form form, const Theta& p, const Mark& mark);

// NaN where there is no such ferment.
[[nodiscard]] double gravity_at(Form form, const Theta& p, const Mark& mark, double day);

// A form with the points it goes through; they have to outlive it.
struct Task {
  Form form;
  const Series* series;
  Mark mark;
  std::shared_ptr<const numeric::Covariance> covariance;  // of the series

  [[nodiscard]] numeric::CurveFit fit(const Theta& start) const;
  // The others, while one of them is held.
  [[nodiscard]] numeric::CurveFit fit_others(const Theta& start, Place held) const;
};

struct Candidate {
  Task task;
  numeric::CurveFit fit;
  double aicc;

  [[nodiscard]] double gravity(double day) const {
    return gravity_at(task.form, theta_of(fit), task.mark, day);
  }
};

// The forms that go through the series, the better one first.
[[nodiscard]] std::vector<Candidate> candidates(const Series& series, double near);
}  // namespace areo::trend
