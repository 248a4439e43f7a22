// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// The picture of a calibration.
#include "areo/document/chart.hpp"
#include "areo/wording/fit.hpp"

namespace areo::paper {

/// What a calibration's fit leaves of each check, with the uncertainty of the check.
[[nodiscard]] document::Chart residual_chart(const wording::FitSummary& f);

}  // namespace areo::paper
