#pragma once
// The pictures of a report, as charts.
#include <string>
#include <vector>

#include "areo/document/chart.hpp"
#include "areo/document/plot.hpp"
#include "areo/trend/history.hpp"
#include "report_material.hpp"

namespace areo::cli {

/// Gravities with their uncertainty, a curve through them, odd readings, additions.
[[nodiscard]] document::Chart gravity_chart(const Material& m, const Account& a);
/// Strengths with their uncertainty, and the limit; no points if there are none.
[[nodiscard]] document::Chart strength_chart(const Material& m, const Account& a);

/// The readings since the last addition, and the curve through them. The history must outlive it.
[[nodiscard]] document::Plot gravity_plot(const trend::History& h);

}  // namespace areo::cli
