// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/paper/gravity_plot.hpp"

#include "areo/text/format.hpp"

namespace areo::paper {

document::Plot gravity_plot(const trend::History& h) {
  document::Plot plot;
  for (std::size_t i = 0; i < h.series.size(); ++i)
    plot.points.push_back({h.series.days[i], h.series.gravity[i], h.series.value(i).expanded()});
  if (const auto& c = h.course) plot.curve = [&c](double day) { return c->gravity(day); };
  plot.x_label = [&h](double day) { return trend::moment_of(h, day).date(); };
  plot.y_label = [](double gravity) { return text::fixed(gravity, 3); };
  return plot;
}

}  // namespace areo::paper
