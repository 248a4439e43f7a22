// SPDX-License-Identifier: GPL-3.0-or-later
// areo table alcohol: the strength for each original and present gravity.
#include <memory>

#include "areo/paper/tables.hpp"
#include "areo/wording/strength.hpp"
#include "reading_options.hpp"
#include "sheet.hpp"
#include "table.hpp"

namespace areo::cli {
namespace {

struct Options {
  paper::AlcoholTable table;
  std::string temperature = "20C", culture;
  entry::ReadingOptions with;
  SheetOptions sheet;
};

int run_table(const Options& o, const Session& session) {
  entry::ReadingResolver resolver = reading_resolver(session, o.with);
  paper::AlcoholTable t = o.table;
  if (!o.with.instrument.empty()) t.instrument = resolver.hydrometer(o.with.instrument);
  t.temperature = resolver.temperature(o.temperature, celsius_point(20));
  t.culture = wording::culture_from_text(o.culture);
  return write_grid(paper::alcohol_table(t), o.sheet, session);
}

}  // namespace

void setup_table_alcohol(const Command& tables, const Session& session, Run& run) {
  const auto o = std::make_shared<Options>();
  auto t = tables.add_subcommand("alcohol", "strength by present and original gravity");
  t.add_option("--from", o->table.from, "first row, present gravity; 0.990 unless stated")
      .type_name("READING");
  t.add_option("--to", o->table.to, "last row; 1.040 unless stated").type_name("READING");
  t.add_option("--step", o->table.step, "between rows; a usual division unless stated")
      .type_name("0.002");
  t.add_option("--originals", o->table.originals,
               "columns, original gravity; 1.030 to 1.080 unless stated")
      .type_name("1.040,1.050,...");
  t.add_option("--temp", o->temperature, "of both readings; 20C unless stated").temperature();
  t.add_option("--culture", o->culture, "yeast, mixed or acetic; yeast unless stated");
  t.add_option("--instrument", o->with.instrument,
               "hydrometer in the notebook; one without error unless stated")
      .type_name("NAME");
  add_sheet_options(t, o->sheet);
  t.footer(
      "Examples:\n  areo table alcohol --from 1.000 --to 1.020 --originals 1.040,1.050\n"
      "  areo table alcohol --instrument stem-1 --temp 22C --out alcohol.pdf");
  t.callback([=, &session, &run] {
    check_sheet_options(o->sheet, session);
    run = [=, &session] { return run_table(*o, session); };
  });
}

}  // namespace areo::cli
