// SPDX-License-Identifier: GPL-3.0-or-later
#include "fit_chart.hpp"

#include <fmt/format.h>

#include "areo/text/format.hpp"
#include "areo/wording/instrument.hpp"

namespace areo::paper {

using document::Chart;

Chart residual_chart(const wording::FitSummary& f) {
  const std::string unit = wording::unit_of(f.instrument);
  Chart chart{.x_title = "shown" + (unit.empty() ? "" : ", " + unit),
              .y_title = "check less fit" + (unit.empty() ? "" : ", " + unit),
              .x_decimals = text::supported_decimals(10 * f.instrument.graduation().division),
              .y_decimals = text::supported_decimals(f.instrument.graduation().division),
              .points = {}};
  Chart::Points all{"check ± U", {}};
  for (std::size_t i = 0; i < f.checks.size(); ++i) {
    const calibration::Check& c = f.evaluated.checks[i];
    all.points.push_back({c.indication, f.fit.residuals[i], c.correction.expanded()});
  }
  if (all.points.empty()) return chart;
  chart.points.push_back(std::move(all));
  chart.levels.emplace_back("the fit", 0);
  chart.title =
      fmt::format("What the fit leaves of each of {} checks, with error bars", f.checks.size());
  return chart;
}

}  // namespace areo::paper
