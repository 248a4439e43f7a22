// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Intervals of a fit's parameters from the profile of chi-squared.
#include <optional>

#include "form_fit.hpp"

namespace areo::trend {

// Difference of AICc from which on the other form has little support [burnham2002].
constexpr double as_good = 4;

// By how much the uncertainties are widened because the readings scatter more than they say
// (chi-squared above its 95 % quantile); 1 if they do not.
[[nodiscard]] double widening(const numeric::CurveFit& fit);

// By how much chi-squared rises to the ends of an interval of this level.
[[nodiscard]] double rise_for(double level, double widened);

// Where a parameter goes, down (-1) or up (1), until chi-squared has risen by so much; nothing if
// it never does.
[[nodiscard]] std::optional<double> profile_end(const Task& task, const numeric::CurveFit& fit,
                                                Place which, double direction, double rise);

}  // namespace areo::trend
