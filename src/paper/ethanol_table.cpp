// SPDX-License-Identifier: GPL-3.0-or-later
// Mixtures of ethanol and water.
#include <fmt/format.h>

#include <algorithm>

#include "areo/measurement/convert.hpp"
#include "areo/paper/tables.hpp"
#include "areo/text/format.hpp"
#include "table_axis.hpp"
#include "wording/result_value.hpp"

namespace areo::paper {
namespace {

Axis rows_of(const EthanolTable& t) {
  const text::TypedNumber from = strength_number(t.from), to = strength_number(t.to),
                          step = strength_number(t.step);
  return even_axis(
      {"alcohol_percent_vol", "alcohol", "% vol", std::max(from.decimals, step.decimals)},
      from.value, to.value, step.value);
}

}  // namespace

Grid ethanol_table(const EthanolTable& t) {
  const Temperature reference = celsius_point(text::liquid_celsius_from_text(t.reference));
  Grid g;
  g.title = "Mixtures of ethanol and water";
  g.lines = {
      fmt::format("volumes, density and gravity at {}", text::celsius_text(reference.celsius()))};
  g.rows = rows_of(t);
  g.quantities = {{"alcohol_percent_mass", "alcohol by mass", "% mass", 2},
                  {"alcohol_g_l", "alcohol", "g/L", 1},
                  {"density_kg_m3", "density", "kg/m³", 2},
                  {"sg_in_air", "SG in air", "", 5}};
  g.doubt = "of the formula alone";
  g.notes = {"no drink: one with extract is heavier"};
  g.models = {
      "alcohol: OIML R 22 [oimlr22]; water: Tanaka and others [tanaka2001]; air of 1.2 kg/m³"};
  g.cells = [=](double percent, double) {
    std::vector<GridCell> cells;
    for (const auto& q :
         measurement::ethanol_mixture(StrengthByVolume{percent}, reference).quantities)
      cells.push_back({q.value});
    return cells;
  };
  g.json = [=](double percent, double) {
    return std::optional{
        wording::json_line(measurement::ethanol_mixture(StrengthByVolume{percent}, reference),
                           {{"alcohol_percent_vol", text::number_json(percent)}})};
  };
  return g;
}

}  // namespace areo::paper
