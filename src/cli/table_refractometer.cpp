// areo table refractometer: what a reading during fermentation means, for each reading before it.
#include <fmt/format.h>

#include <algorithm>
#include <memory>
#include <optional>

#include "areo/core/error.hpp"
#include "areo/entry/reading_resolver.hpp"
#include "areo/measurement/refract.hpp"
#include "areo/text/format.hpp"
#include "areo/text/json.hpp"
#include "areo/text/parse.hpp"
#include "areo/text/parse_refraction.hpp"
#include "areo/wording/strength.hpp"
#include "extract_options.hpp"
#include "failure.hpp"
#include "reading_options.hpp"
#include "strength_cell.hpp"
#include "table.hpp"
#include "table_axis.hpp"

namespace areo::cli {
namespace {

using measurement::AlcoholResult;
using measurement::RefractometerSample;

struct Options {
  std::string from = "0Bx", to = "16Bx", step = "1Bx", originals = "8,10,12,14,16";
  std::string temperature = "20C";
  SheetOptions sheet;
  entry::ExtractWords extract;
  entry::ReadingOptions with;
};

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

Axis rows_of(const Options& o) {
  const double from = brix_from_text(o.from, "the first row");
  const double to = brix_from_text(o.to, "the last row");
  const double step = brix_from_text(o.step, "a step");
  const int decimals = std::max(text::number_with_unit(o.from, "the first row").decimals,
                                text::number_with_unit(o.step, "a step").decimals);
  return even_axis({"brix_shown", "shown", "Brix", decimals}, from, to, step);
}

int run_table(const Options& o, const Session& session) {
  entry::ReadingResolver resolver = reading_resolver(session, o.with);
  const Reader reader{
      o.with.instrument.empty() ? nominal() : resolver.refractometer(o.with.instrument),
      resolver.extract(o.extract), resolver.temperature(o.temperature, celsius_point(20))};
  const instruments::Refractometer& r = reader.instrument.refractometer;
  if (r.scale != instruments::RefractometerScale::brix)
    throw Error{Errc::inconsistent, "this table is for Brix scales",
                "name a refractometer that shows Brix, or none"};
  Grid g;
  g.title = "Gravity and alcohol while it ferments, by the Brix shown now and before";
  g.lines = {fmt::format("present SG 20/20 and % vol, at {}, for {}; - = no ferment shows that",
                         text::celsius_text(reader.temperature.indication_c), r.name)};
  g.rows = rows_of(o);
  g.columns = listed_brix(o.originals, {"original_brix", "shown before it fermented", "Brix"},
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
    return cell_json(*cell, {{"brix_shown", fmt::format("{}", shown)},
                             {"original_brix", fmt::format("{}", original)}});
  };
  return write_grid(g, o.sheet, session);
}

}  // namespace

void setup_table_refractometer(const Command& tables, const Session& session, Run& run) {
  const auto o = std::make_shared<Options>();
  o->with.refractometer = true;
  auto t = tables.add_subcommand("refractometer", "Brix shown while fermenting, by the original");
  t.add_option("--from", o->from, "first row, Brix shown; 0 unless stated").type_name("BRIX");
  t.add_option("--to", o->to, "last row; 16 unless stated").type_name("BRIX");
  t.add_option("--step", o->step, "step between rows; 1 unless stated").type_name("BRIX");
  t.add_option("--originals", o->originals,
               "columns, Brix shown before; 8,10,12,14,16 unless "
               "stated")
      .type_name("BRIX,...");
  t.add_option("--temp", o->temperature, "of the prism, both times; 20C unless stated")
      .type_name("TEMP");
  t.add_option("--instrument", o->with.instrument,
               "refractometer in the notebook; one without error unless stated")
      .type_name("NAME");
  add_extract_options(t, o->extract);
  add_sheet_options(t, o->sheet);
  t.footer(
      "Examples:\n  areo table refractometer --from 2 --to 12 --originals 10,12\n"
      "  areo table refractometer --instrument prism-1 --temp 18C --step 0.5 --csv");
  t.callback([=, &session, &run] {
    check_sheet_options(o->sheet, session);
    check_extract_options(o->extract);
    run = [=, &session] { return run_table(*o, session); };
  });
}

}  // namespace areo::cli
