// SPDX-License-Identifier: GPL-3.0-or-later
// The strength for each original and present gravity.
#include <fmt/format.h>

#include "areo/core/error.hpp"
#include "areo/measurement/alcohol.hpp"
#include "areo/measurement/temperature_table.hpp"
#include "areo/paper/tables.hpp"
#include "areo/physics/scale_name.hpp"
#include "areo/text/format.hpp"
#include "strength_cell.hpp"
#include "table_axis.hpp"

namespace areo::paper {
namespace {

using measurement::AlcoholResult;

struct Reader {
  measurement::Calibrated instrument;
  instruments::TemperatureReading temperature;
  ferment::Culture culture;

  /// Nothing where a ferment of that original cannot come to the present gravity.
  [[nodiscard]] std::optional<AlcoholResult> cell(double present, double original) const {
    const auto reading = [&](double mark) {
      instruments::HydrometerReading r;
      r.indication = mark;
      r.temperature = temperature;
      return r;
    };
    if (present > original) return std::nullopt;
    try {
      return possible(measurement::alcohol(instrument, reading(present), instrument,
                                           reading(original), culture));
    } catch (const Error& e) {
      if (e.code == Errc::inconsistent) return std::nullopt;  // lower than all of it fermented
      throw;
    }
  }
};

// As wide as the table: what its marks are read on.
measurement::Calibrated without_error_over(const MarkAxis& rows, const MarkAxis& columns) {
  instruments::Hydrometer h = instruments::ordinary_hydrometer(rows.scale);
  h.name = "a hydrometer without error";
  h.lo = std::min(h.lo, rows.axis.from);
  h.hi = std::max(h.hi, columns.axis.listed.back());
  return measurement::without_error(h);
}

}  // namespace

Grid alcohol_table(const AlcoholTable& t) {
  const auto& named = t.instrument;
  const auto own = named ? std::optional{named->hydrometer.scale} : std::nullopt;
  const MarkAxis side = mark_axis(t.from, t.to, t.step, own);
  const MarkAxis top = listed_marks(t.originals, own);
  if (side.scale != top.scale)
    throw Error{Errc::inconsistent,
                fmt::format("the rows are in {} and the originals in {}",
                            physics::scale_name(side.scale), physics::scale_name(top.scale)),
                "write both on one scale"};
  const Reader reader{named ? *named : without_error_over(side, top), t.temperature, t.culture};
  const instruments::Hydrometer& h = reader.instrument.hydrometer;
  Grid g;
  g.title = "Alcohol by the gravity now and before it fermented";
  g.lines = {fmt::format("% vol, {} read at {} on {}; {}; - = no ferment comes to that",
                         physics::scale_name(h.scale),
                         text::celsius_text(reader.temperature.indication_c), h.name,
                         wording::basis_text(reader.culture))};
  g.rows = side.axis;
  g.rows.key = "present_" + g.rows.key;
  g.rows.name = "present";
  g.columns = top.axis;
  g.columns->key = "original_" + g.columns->key;
  g.columns->name = "original";
  g.columns->before = "from";
  g.quantities = {{wording::strength_key, "alcohol", "% vol", 1}};
  g.doubt = fmt::format("both read to half a division of {:g}, ± {:g} °C, and the method",
                        h.division, reader.temperature.half_width_c);
  g.notes = reader.instrument.correction.remarks;
  g.notes.emplace_back(
      "a home estimate is not a legal strength: local law and an accredited laboratory decide");
  g.models = {of_balance, of_sugar, of_drinks, of_glass};
  g.cells = [reader](double present, double original) {
    const auto cell = reader.cell(present, original);
    return std::vector{cell ? strength_cell(*cell) : GridCell{}};
  };
  g.json = [reader](double present, double original) -> std::optional<std::string> {
    const auto cell = reader.cell(present, original);
    if (!cell) return std::nullopt;
    return cell_json(*cell, {{"present", text::number_json(present)},
                             {"original", text::number_json(original)}});
  };
  return g;
}

}  // namespace areo::paper
