// areo table strength: mixtures of ethanol and water.
#include <fmt/format.h>

#include <algorithm>
#include <memory>

#include "areo/measurement/convert.hpp"
#include "areo/text/format.hpp"
#include "areo/text/parse.hpp"
#include "areo/wording/result_json.hpp"
#include "table.hpp"
#include "table_axis.hpp"

namespace areo::cli {
namespace {

struct Options {
  std::string from = "0", to = "15", step = "0.5", reference = "20C";
  SheetOptions sheet;
};

Axis rows_of(const Options& o) {
  const text::TypedNumber from = strength_number(o.from), to = strength_number(o.to),
                          step = strength_number(o.step);
  return even_axis(
      {"alcohol_percent_vol", "alcohol", "% vol", std::max(from.decimals, step.decimals)},
      from.value, to.value, step.value);
}

int run_table(const Options& o, const Session& session) {
  const Temperature reference = celsius_point(text::liquid_celsius_from_text(o.reference));
  Grid g;
  g.title = "Mixtures of ethanol and water";
  g.lines = {
      fmt::format("volumes, density and gravity at {}", text::celsius_text(reference.celsius()))};
  g.rows = rows_of(o);
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
                           {{"alcohol_percent_vol", fmt::format("{}", percent)}})};
  };
  return write_grid(g, o.sheet, session);
}

}  // namespace

void setup_table_strength(const Command& tables, const Session& session, Run& run) {
  const auto o = std::make_shared<Options>();
  auto t = tables.add_subcommand("strength", "ethanol and water: % vol, % mass, g/L, density");
  t.add_option("--from", o->from, "first row, % vol; 0 unless stated").type_name("PERCENT");
  t.add_option("--to", o->to, "last row; 15 unless stated").type_name("PERCENT");
  t.add_option("--step", o->step, "between rows; 0.5 unless stated").type_name("PERCENT");
  t.add_option("--reference", o->reference, "of volumes and gravity; 20C unless stated")
      .type_name("TEMP");
  add_sheet_options(t, o->sheet);
  t.footer(
      "Examples:\n  areo table strength --to 10 --step 0.1\n"
      "  areo table strength --to 100 --step 1 --reference 60F --out strength.pdf");
  t.callback([=, &session, &run] {
    check_sheet_options(o->sheet, session);
    run = [=, &session] { return run_table(*o, session); };
  });
}

}  // namespace areo::cli
