// SPDX-License-Identifier: GPL-3.0-or-later
// Water that brings a liquid down, or sugar that brings it up.
#include <fmt/format.h>

#include "areo/core/error.hpp"
#include "areo/measurement/dilution.hpp"
#include "areo/paper/tables.hpp"
#include "areo/physics/scale_name.hpp"
#include "table_axis.hpp"
#include "wording/result_value.hpp"

namespace areo::paper {
namespace {

// Of a specific gravity; of other scales a usual division.
constexpr const char* gravity_step = "0.005";

}  // namespace

Grid dilution_table(const DilutionTable& t) {
  const MarkAxis side = mark_axis(t.from, t.to, t.step, std::nullopt, gravity_step);
  const MarkAxis top = listed_marks(t.wanted);
  if (side.scale != top.scale)
    throw Error{Errc::inconsistent,
                fmt::format("the rows are in {} and the columns in {}",
                            physics::scale_name(side.scale), physics::scale_name(top.scale)),
                "write both on one scale"};
  const bool water = t.add == DilutionTable::Add::water;
  const char* what = water ? "water" : "sugar";
  Grid g;
  g.title = water ? "Water that brings a litre down" : "Sugar that brings a litre up";
  g.lines = {
      fmt::format("grams of {0} to each litre of an unfermented sugar liquid, measured at 20 "
                  "°C; - = {1} cannot bring it there",
                  water ? what : "white sugar", what)};
  g.rows = side.axis;
  g.rows.key = "is_" + g.rows.key;
  g.rows.name = "is";
  g.columns = top.axis;
  g.columns->key = "wanted_" + g.columns->key;
  g.columns->name = g.columns->before = "wanted";
  g.quantities = {{water ? "water_g_per_l" : "sugar_g_per_l", what, "g/L", 0}};
  g.doubt = fmt::format("of the formulas{}; the readings and the litre bring their own",
                        water ? "" : " and of white sugar, 99.6 % sucrose or more");
  if (water) g.notes = {"a litre of water weighs 998 g at 20 °C"};
  g.notes.emplace_back("stir until it is one liquid, then read it again: the reading decides");
  g.models = {of_sugar};
  const auto result = [=, scale = side.scale](double from,
                                              double to) -> std::optional<measurement::Result> {
    try {
      return water ? measurement::water_to_add(scale, from, to)
                   : measurement::sugar_to_add(scale, from, to);
    } catch (const Error& e) {
      if (e.code == Errc::domain) return std::nullopt;
      throw;
    }
  };
  g.cells = [=](double from, double to) {
    const auto r = result(from, to);
    return std::vector{r ? GridCell{r->quantities.front().value} : GridCell{}};
  };
  g.json = [=](double from, double to) -> std::optional<std::string> {
    const auto r = result(from, to);
    if (!r) return std::nullopt;
    return wording::json_line(*r,
                              {{"is", text::number_json(from)}, {"wanted", text::number_json(to)}});
  };
  return g;
}

}  // namespace areo::paper
