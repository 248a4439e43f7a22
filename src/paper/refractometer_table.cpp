// SPDX-License-Identifier: GPL-3.0-or-later
// What a reading during fermentation means, for each reading before it.
#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "areo/core/error.hpp"
#include "areo/measurement/refract.hpp"
#include "areo/paper/tables.hpp"
#include "areo/text/format.hpp"
#include "areo/text/parse_refraction.hpp"
#include "areo/wording/strength.hpp"
#include "strength_cell.hpp"
#include "table_axis.hpp"

namespace areo::paper {
namespace {

using measurement::AlcoholResult;
using measurement::RefractometerSample;

// A nominal instrument has no error; what remains is reading, temperature, extract and method.
measurement::CalibratedRefractometer nominal() {
  auto r = instruments::ordinary_refractometer(instruments::RefractometerScale::brix);
  r.name = "a refractometer without error";
  return {r, {.checked_lo = r.lo, .checked_hi = r.hi, .checks = 1, .provenance = "nominal"}};
}

struct Reader {
  measurement::CalibratedRefractometer instrument;
  measurement::ExtractKind kind;
  instruments::TemperatureReading temperature;

  /// Nothing where no ferment of that original shows this.
  [[nodiscard]] std::optional<AlcoholResult> cell(double shown, double original) const {
    const auto sample = [&](double brix) {
      return RefractometerSample{instrument, {brix, 0, temperature}};
    };
    if (shown > original) return std::nullopt;
    try {
      return possible(refract_fermenting(sample(shown), sample(original), kind));
    } catch (const Error& e) {
      if (e.code == Errc::inconsistent) return std::nullopt;  // lower than all of it fermented
      throw;
    }
  }
};

Axis rows_of(const RefractometerTable& t) {
  const double from = brix_from_text(t.from, "the first row");
  const double to = brix_from_text(t.to, "the last row");
  const double step = brix_from_text(t.step, "a step");
  const int decimals = std::max(text::number_with_unit(t.from, "the first row").decimals,
                                text::number_with_unit(t.step, "a step").decimals);
  return even_axis({"brix_shown", "shown", "Brix", decimals}, from, to, step);
}

}  // namespace

Grid refractometer_table(const RefractometerTable& t) {
  const Reader reader{t.instrument ? *t.instrument : nominal(), t.kind, t.temperature};
  const instruments::Refractometer& r = reader.instrument.refractometer;
  if (r.scale != instruments::RefractometerScale::brix)
    throw Error{Errc::inconsistent, "this table is for Brix scales",
                "name a refractometer that shows Brix, or none"};
  Grid g;
  g.title = "Gravity and alcohol while it ferments, by the Brix shown now and before";
  g.lines = {fmt::format("present SG 20/20 and % vol, at {}, for {}; - = no ferment shows that",
                         text::celsius_text(reader.temperature.indication_c), r.name)};
  g.rows = rows_of(t);
  g.columns = listed_brix(t.originals, {"original_brix", "shown before it fermented", "Brix"},
                          "an original reading");
  g.columns->before = "from";
  g.quantities = {{"sg_20_20_present", "present SG 20/20", "SG", 4},
                  {wording::strength_key, "alcohol", "% vol", 1}};
  g.doubt = fmt::format("reading to half a division of {:g}, ± {:g} °C, extract: {}", r.division,
                        reader.temperature.half_width_c, reader.kind.name);
  g.notes = reader.instrument.correction.remarks;
  g.notes.insert(g.notes.end(), reader.kind.remarks.begin(), reader.kind.remarks.end());
  g.models = {of_balance, of_index, of_sugar, of_drinks};
  g.cells = [reader](double shown, double original) {
    const auto cell = reader.cell(shown, original);
    if (!cell) return std::vector<GridCell>(2);
    return std::vector{GridCell{cell->result.at("sg_20_20_present").value}, strength_cell(*cell)};
  };
  g.json = [reader](double shown, double original) -> std::optional<std::string> {
    const auto cell = reader.cell(shown, original);
    if (!cell) return std::nullopt;
    return cell_json(*cell, {{"brix_shown", text::number_json(shown)},
                             {"original_brix", text::number_json(original)}});
  };
  return g;
}

}  // namespace areo::paper
