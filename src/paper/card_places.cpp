// SPDX-License-Identifier: GPL-3.0-or-later
#include "card_places.hpp"

#include <cstddef>

#include "areo/text/format.hpp"
#include "temperature_grid.hpp"

namespace areo::paper {

using physics::ScaleKind;

std::vector<double> usual_places(const physics::Scale& s) {
  switch (s.kind) {
    case ScaleKind::specific_gravity:
    case ScaleKind::apparent_gravity: return {1.000, 1.020, 1.040, 1.060, 1.080};
    case ScaleKind::density: return {1000, 1020, 1040, 1060, 1080};
    case ScaleKind::oechsle: return {0, 20, 40, 60, 80};
    case ScaleKind::plato:
    case ScaleKind::brix: return {0, 5, 10, 15, 20};
    case ScaleKind::baume: return {0, 3, 6, 9, 12};
    case ScaleKind::sugar_concentration: return {0, 50, 100, 150, 200};
  }
  return {};
}

std::string places_on(const notebook::Graduation& scale, std::vector<double> places) {
  constexpr std::size_t few = 3;
  constexpr int own_parts = 4;
  std::erase_if(places, [&](double p) { return p < scale.lo || p > scale.hi; });
  if (places.size() < few) return marks_of(scale, own_parts);
  std::string all;
  for (const double p : places)
    all += (all.empty() ? "" : ",") + text::indication_text(p, scale.division);
  return all;
}

}  // namespace areo::paper
