// SPDX-License-Identifier: GPL-3.0-or-later
// Scales side by side, for unfermented sugar liquids.
#include <fmt/format.h>

#include <algorithm>
#include <memory>

#include "areo/core/error.hpp"
#include "areo/measurement/convert.hpp"
#include "areo/paper/tables.hpp"
#include "areo/physics/scale_name.hpp"
#include "areo/wording/notes.hpp"
#include "table_axis.hpp"
#include "wording/result_value.hpp"

namespace areo::paper {
namespace {

using measurement::Result;

// A column: a scale, or what else an unfermented liquid has.
struct Column {
  std::optional<physics::Scale> scale;
  Result (*further)(const physics::Scale& from, double mark) = nullptr;
  GridQuantity quantity;
};

Column column_of(const physics::Scale& s) {
  return {
      s,
      nullptr,
      {physics::scale_key(s), physics::scale_name(s), physics::scale_unit(s), most_decimals(s)}};
}
Column index_column() {
  return {
      std::nullopt, measurement::refractive_index_20, {"refractive_index_20", "index n20", "", 5}};
}
Column potential_column() {
  return {std::nullopt,
          measurement::potential_alcohol,
          {"potential_alcohol_percent_vol", "potential alcohol", "% vol", 1}};
}

// The refusal knows what else there is.
physics::Scale scale_or_more(const std::string& word) {
  try {
    return text::scale_from_text(word);
  } catch (const ParseError& e) {
    throw ParseError{e.what(), e.text, e.position, e.length, e.hint + "; and nD, potential"};
  }
}

std::vector<Column> columns_from_text(const std::string& text, const physics::Scale& entry) {
  std::vector<Column> all;
  if (text.empty()) {
    for (const physics::Scale& s : physics::offered_scales())
      if (s != entry) all.push_back(column_of(s));
    all.push_back(index_column());
    all.push_back(potential_column());
    return all;
  }
  text::each_part(text, [&](const std::string& word) {
    Column column = word == "nD"          ? index_column()
                    : word == "potential" ? potential_column()
                                          : column_of(scale_or_more(word));
    // Named twice, it is shown once.
    if (std::none_of(all.begin(), all.end(),
                     [&](const Column& c) { return c.quantity.key == column.quantity.key; }))
      all.push_back(std::move(column));
  });
  return all;
}

// One row: every column that the liquid has.
class Row {
 public:
  Row(const physics::Scale& entry, std::vector<Column> columns)
      : entry_{entry}, columns_{std::move(columns)} {
    for (const Column& c : columns_)
      if (c.scale) scales_.push_back(*c.scale);
  }

  [[nodiscard]] std::vector<GridCell> cells(double mark) const {
    const Result scales = measurement::convert(entry_, mark, 0, scales_);
    std::vector<GridCell> all;
    std::size_t next = 0;
    for (const Column& c : columns_)
      all.push_back(c.scale ? GridCell{scales.quantities[next++].value} : further(c, mark));
    return all;
  }

  [[nodiscard]] std::string json(double mark) const {
    Result all = measurement::convert(entry_, mark, 0, scales_);
    for (const Column& c : columns_)
      if (!c.scale)
        if (const auto cell = further(c, mark); cell.value)
          all.quantities.push_back({c.quantity.key, c.quantity.name, c.quantity.unit, *cell.value});
    return wording::json_line(all, {{"entry", text::number_json(mark)}});
  }

 private:
  // Beyond the range of its model a column is empty.
  [[nodiscard]] GridCell further(const Column& c, double mark) const {
    try {
      return {c.further(entry_, mark).quantities.front().value};
    } catch (const Error& e) {
      if (e.code == Errc::domain) return {};
      throw;
    }
  }
  physics::Scale entry_;
  std::vector<Column> columns_;
  std::vector<physics::Scale> scales_;
};

}  // namespace

Grid conversion_table(const ConversionTable& t) {
  MarkAxis side = mark_axis(t.from, t.to, t.step);
  side.axis.key = "entry_" + side.axis.key;
  const std::vector<Column> columns = columns_from_text(t.columns, side.scale);
  Grid g;
  g.title = fmt::format("What {} means on other scales", physics::scale_name(side.scale));
  g.lines = {"unfermented sugar liquids"};
  g.rows = side.axis;
  g.doubt = "of the formulas alone";
  g.models = {of_sugar};
  for (const Column& c : columns) g.quantities.push_back(c.quantity);
  const auto has = [&](const char* key) {
    return std::any_of(columns.begin(), columns.end(),
                       [&](const Column& c) { return c.quantity.key == key; });
  };
  if (has("refractive_index_20")) g.models.emplace_back(of_index);
  if (has("potential_alcohol_percent_vol")) {
    g.notes = {
        "potential alcohol: if a clean yeast fermented all of it; what is lost on the way is "
        "not taken off"};
    g.models.emplace_back(of_balance);
    g.models.emplace_back(of_drinks);
  }
  const auto row = std::make_shared<Row>(side.scale, columns);
  for (std::string& note :
       wording::own_notes(measurement::convert(side.scale, side.axis.from, 0, {})))
    g.notes.push_back(std::move(note));
  g.cells = [row](double mark, double) { return row->cells(mark); };
  g.json = [row](double mark, double) { return std::optional{row->json(mark)}; };
  return g;
}

}  // namespace areo::paper
