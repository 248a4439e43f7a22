// SPDX-License-Identifier: GPL-3.0-or-later
#include "temperature_grid.hpp"

#include <fmt/format.h>

#include <cmath>
#include <utility>

#include "areo/core/error.hpp"
#include "areo/physics/mixture.hpp"
#include "areo/physics/scale_name.hpp"
#include "areo/text/format.hpp"
#include "areo/text/parse.hpp"
#include "wording/result_value.hpp"

namespace areo::paper {
namespace {

using measurement::Result;

// @param correction  Result of a temperature and a mark
template <class Correction>
Grid grid_of(const TemperatureAxis& side, const Axis& top, GridQuantity quantity,
             const Correction& correction) {
  const auto result = [=](double entry, double mark) -> std::optional<Result> {
    try {
      return correction(side.at(entry), mark);
    } catch (const Error& e) {
      if (e.code == Errc::domain) return std::nullopt;  // no such liquid
      throw;
    }
  };
  Grid g;
  g.rows = side.axis;
  g.columns = top;
  g.columns->key = "reading_" + g.columns->key;
  g.columns->name = "reading";
  g.columns->before = "at";
  g.quantities = {std::move(quantity)};
  g.cells = [=](double entry, double mark) {
    const auto r = result(entry, mark);
    return std::vector{r ? GridCell{r->quantities.front().value} : GridCell{}};
  };
  g.json = [=, key = side.axis.key](double entry, double mark) -> std::optional<std::string> {
    const auto r = result(entry, mark);
    if (!r) return std::nullopt;
    return wording::json_line(
        *r, {{key, text::number_json(entry)}, {"reading", text::number_json(mark)}});
  };
  return g;
}

}  // namespace

Grid temperature_grid(const measurement::Calibrated& instrument, const TemperatureAxis& side,
                      const MarkAxis& top, StrengthByVolume alcohol, int most_decimals) {
  for (const double mark : top.axis.listed)
    instruments::require_on_scale(instrument.hydrometer, mark);
  if (alcohol.value() > 0)
    for (const double end :
         {side.axis.at(0), side.axis.at(static_cast<double>(side.axis.size()) - 1)})
      physics::require_drink_temperature(side.at(end));
  Grid g = grid_of(side, top.axis,
                   {"correction", "add", physics::scale_unit(top.scale), most_decimals, true},
                   [=](Temperature t, double mark) {
                     return measurement::temperature_correction(instrument, mark, t, alcohol);
                   });
  g.models = {of_sugar, of_glass};
  if (alcohol.value() > 0) g.models.insert(g.models.begin() + 1, of_drinks);
  return g;
}

Grid temperature_grid(const measurement::CalibratedRefractometer& instrument,
                      const TemperatureAxis& side, const Axis& top,
                      const measurement::ExtractKind& kind, int most_decimals) {
  for (const double mark : top.listed)
    instruments::require_on_scale(instrument.refractometer, mark);
  for (const double end :
       {side.axis.at(0), side.axis.at(static_cast<double>(side.axis.size()) - 1)})
    require(physics::index_temperature_range, side.at(end).celsius());
  Grid g = grid_of(side, top, {"correction", "add", "Brix", most_decimals, true},
                   [=](Temperature t, double mark) {
                     return measurement::temperature_correction(instrument, mark, t, kind);
                   });
  g.models = {of_index};
  return g;
}

StrengthByVolume strength_from_text(const std::string& text) {
  return StrengthByVolume{text.empty() ? 0 : strength_number(text).value};
}

std::string marks_of(const notebook::Graduation& scale, int parts) {
  std::string all;
  for (int i = 0; i <= parts; ++i) {
    const double mark = scale.lo + (scale.hi - scale.lo) * i / parts;
    all +=
        (all.empty() ? "" : ",") +
        text::indication_text(std::round(mark / scale.division) * scale.division, scale.division);
  }
  return all;
}

std::string possible_marks(const std::string& marks, const physics::Scale& scale) {
  std::string all;
  text::each_part(marks, [&](const std::string& mark) {
    try {
      (void)text::mark_from_text(mark, scale);
    } catch (const Error& e) {
      if (e.code == Errc::domain) return;
      throw;
    }
    all += (all.empty() ? "" : ",") + mark;
  });
  return all;
}

}  // namespace areo::paper
