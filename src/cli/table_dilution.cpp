// SPDX-License-Identifier: GPL-3.0-or-later
// areo table dilution: water that brings a liquid down, or sugar that brings it up.
#include <memory>
#include <string>

#include "areo/paper/tables.hpp"
#include "sheet.hpp"
#include "table.hpp"

namespace areo::cli {
namespace {

struct Options {
  paper::DilutionTable table;
  std::string add = "water";
  SheetOptions sheet;
};

int run_table(const Options& o, const Session& session) {
  paper::DilutionTable t = o.table;
  if (o.add == "sugar") t.add = paper::DilutionTable::Add::sugar;
  return write_grid(paper::dilution_table(t), o.sheet, session);
}

}  // namespace

void setup_table_dilution(const Command& tables, const Session& session, Run& run) {
  const auto o = std::make_shared<Options>();
  auto t = tables.add_subcommand("dilution", "water, or sugar, from one gravity to another");
  t.add_option("--add", o->add, "water or sugar; water unless stated").one_of({"water", "sugar"});
  t.add_option("--from", o->table.from, "first row, what it is; 1.040 unless stated")
      .type_name("READING");
  t.add_option("--to", o->table.to, "last row; 1.100 unless stated").type_name("READING");
  t.add_option("--step", o->table.step, "between rows; 0.005 or a usual division unless stated")
      .type_name("0.005");
  t.add_option("--wanted", o->table.wanted,
               "columns, what it is to be; 1.030 to 1.080 unless stated")
      .type_name("1.040,1.050,...");
  add_sheet_options(t, o->sheet);
  t.footer(
      "Examples:\n  areo table dilution --from 1.060 --to 1.090 --wanted 1.045,1.050\n"
      "  areo table dilution --add sugar --from 6P --to 12P --step 1 --wanted 10P,12P");
  t.callback([=, &session, &run] {
    check_sheet_options(o->sheet, session);
    run = [=, &session] { return run_table(*o, session); };
  });
}

}  // namespace areo::cli
