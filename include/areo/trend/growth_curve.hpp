// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// The course of a ferment as a curve, for the eye.
#include <optional>

#include "areo/trend/series.hpp"

namespace areo::trend {

/// How the consumed sugar S grows from none to all: with z = rate (day - middle),
enum class Form {
  logistic,  ///< S = 1 / (1 + exp(-z)): as fast before the middle as behind it
  gompertz,  ///< S = exp(-exp(-z)): a sharp begin and a long end
};

/// gravity = start - (start - final) S(day), fitted to a series. It leads through the readings and
/// foretells nothing: of where a ferment ends it knows little (docs/explanation/outlook.md).
struct GrowthCurve {
  Form form = Form::logistic;
  double start = 0, final = 0;         ///< SG 20/20 long before and long after
  double middle = 0, rate = 0;         ///< day where it falls fastest; per day
  double first_day = 0, last_day = 0;  ///< of the readings

  /// NaN before the first reading and after the last one.
  [[nodiscard]] double gravity(double day) const;
};

/// Points that a curve with four parameters and its choice need at least.
constexpr std::size_t least_points = 6;

/// Fits both forms and keeps the one with the lower AICc. Nothing for too few readings, for some
/// that fell by no more than they can tell, or if no curve goes through them: chi-squared is above
/// its 95 % quantile.
/// @param series  in order of time, without a jump between its points
/// @source [zwietering1990] both forms; [hurvich1989] AICc; all from memory
[[nodiscard]] std::optional<GrowthCurve> course_of(const Series& series);

}  // namespace areo::trend
