// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// The pictures of a report, as charts.
#include "areo/document/chart.hpp"
#include "areo/paper/report.hpp"

namespace areo::paper {

/// Gravities with their uncertainty, a curve through them, odd readings, additions.
[[nodiscard]] document::Chart gravity_chart(const ReportData& m, const BottleHistory& a);
/// Strengths with their uncertainty, and the limit; no points if there are none.
[[nodiscard]] document::Chart strength_chart(const ReportData& m, const BottleHistory& a);

}  // namespace areo::paper
