// SPDX-License-Identifier: GPL-3.0-or-later
// areo table conversion: scales side by side, for unfermented sugar liquids.
#include <memory>

#include "areo/paper/tables.hpp"
#include "sheet.hpp"
#include "table.hpp"

namespace areo::cli {
namespace {

struct Options {
  paper::ConversionTable table;
  SheetOptions sheet;
};

int run_table(const Options& o, const Session& session) {
  return write_grid(paper::conversion_table(o.table), o.sheet, session);
}

}  // namespace

void setup_table_conversion(const Command& tables, const Session& session, Run& run) {
  const auto o = std::make_shared<Options>();
  auto t = tables.add_subcommand("conversion", "scales side by side");
  t.add_option("--from", o->table.from, "first entry, on any scale; 1.000 unless stated")
      .type_name("READING");
  t.add_option("--to", o->table.to, "last entry, on the same scale; 1.120 unless stated")
      .type_name("READING");
  t.add_option("--step", o->table.step, "step between entries; a usual division unless stated")
      .type_name("0.001");
  t.add_option("--columns", o->table.columns,
               "scales, nD (refractive index at 20 °C), potential (alcohol); separated by commas, "
               "all unless stated")
      .type_name("P,kg/m3,...");
  add_sheet_options(t, o->sheet);
  t.footer(
      "Examples:\n  areo table conversion --from 1.030 --to 1.060 --step 0.001\n"
      "  areo table conversion --from 0P --to 25P --step 0.5 --columns SG,kg/m3,g/L,nD\n"
      "  areo table conversion --out scales.pdf");
  t.callback([=, &session, &run] {
    check_sheet_options(o->sheet, session);
    run = [=, &session] { return run_table(*o, session); };
  });
}

}  // namespace areo::cli
