// SPDX-License-Identifier: GPL-3.0-or-later
// areo table refractometer: what a reading during fermentation means, for each reading before it.
#include <memory>

#include "areo/paper/tables.hpp"
#include "extract_options.hpp"
#include "reading_options.hpp"
#include "sheet.hpp"
#include "table.hpp"

namespace areo::cli {
namespace {

struct Options {
  paper::RefractometerTable table;
  std::string temperature = "20C";
  SheetOptions sheet;
  entry::ExtractWords extract;
  entry::ReadingOptions with;
};

int run_table(const Options& o, const Session& session) {
  entry::ReadingResolver resolver = reading_resolver(session, o.with);
  paper::RefractometerTable t = o.table;
  if (!o.with.instrument.empty()) t.instrument = resolver.refractometer(o.with.instrument);
  t.kind = resolver.extract(o.extract);
  t.temperature = resolver.temperature(o.temperature, celsius_point(20));
  return write_grid(paper::refractometer_table(t), o.sheet, session);
}

}  // namespace

void setup_table_refractometer(const Command& tables, const Session& session, Run& run) {
  const auto o = std::make_shared<Options>();
  o->with.refractometer = true;
  auto t = tables.add_subcommand("refractometer", "Brix shown while fermenting, by the original");
  t.add_option("--from", o->table.from, "first row, Brix shown; 0 unless stated").type_name("BRIX");
  t.add_option("--to", o->table.to, "last row; 16 unless stated").type_name("BRIX");
  t.add_option("--step", o->table.step, "step between rows; 1 unless stated").type_name("BRIX");
  t.add_option("--originals", o->table.originals,
               "columns, Brix shown before; 8,10,12,14,16 unless "
               "stated")
      .type_name("BRIX,...");
  t.add_option("--temp", o->temperature, "of the prism, both times; 20C unless stated")
      .temperature();
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
