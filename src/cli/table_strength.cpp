// SPDX-License-Identifier: GPL-3.0-or-later
// areo table strength: mixtures of ethanol and water.
#include <memory>

#include "areo/paper/tables.hpp"
#include "sheet.hpp"
#include "table.hpp"

namespace areo::cli {
namespace {

struct Options {
  paper::EthanolTable table;
  SheetOptions sheet;
};

int run_table(const Options& o, const Session& session) {
  return write_grid(paper::ethanol_table(o.table), o.sheet, session);
}

}  // namespace

void setup_table_strength(const Command& tables, const Session& session, Run& run) {
  const auto o = std::make_shared<Options>();
  auto t = tables.add_subcommand("strength", "ethanol and water: % vol, % mass, g/L, density");
  t.add_option("--from", o->table.from, "first row, % vol; 0 unless stated").type_name("PERCENT");
  t.add_option("--to", o->table.to, "last row; 15 unless stated").type_name("PERCENT");
  t.add_option("--step", o->table.step, "between rows; 0.5 unless stated").type_name("PERCENT");
  t.add_option("--reference", o->table.reference, "of volumes and gravity; 20C unless stated")
      .temperature();
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
