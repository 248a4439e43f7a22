// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// A ferment's gravities as a plot for a terminal.
#include "areo/document/plot.hpp"
#include "areo/trend/history.hpp"

namespace areo::paper {

/// The readings since the last addition, and the curve through them. The history must outlive it.
[[nodiscard]] document::Plot gravity_plot(const trend::History& h);

}  // namespace areo::paper
