// SPDX-License-Identifier: GPL-3.0-or-later
// areo table temperature: what to add to a hydrometer's reading at each temperature.
#include <memory>

#include "areo/paper/tables.hpp"
#include "reading_options.hpp"
#include "sheet.hpp"
#include "table.hpp"

namespace areo::cli {
namespace {

struct Options {
  paper::TemperatureTable table;
  entry::ReadingOptions with;
  SheetOptions sheet;
};

int run_table(const Options& o, const Session& session) {
  entry::ReadingResolver resolver = reading_resolver(session, o.with);
  paper::TemperatureTable t = o.table;
  if (!o.with.instrument.empty()) t.instrument = resolver.hydrometer(o.with.instrument);
  return write_grid(paper::temperature_table(t, shape_of(o.sheet)), o.sheet, session);
}

}  // namespace

void setup_table_temperature(const Command& tables, const Session& session, Run& run) {
  const auto o = std::make_shared<Options>();
  auto t = tables.add_subcommand("temperature",
                                 "what to add to a hydrometer reading at each temperature");
  t.add_option("--coldest", o->table.coldest, "first row; 10C unless stated").temperature();
  t.add_option("--warmest", o->table.warmest, "last row; 35C unless stated").temperature();
  t.add_option("--step", o->table.step, "between rows; 1C unless stated").type_name("1C");
  t.add_option("--readings", o->table.readings,
               "columns, on any scale; 1.000 to 1.100 unless stated, or the instrument's own")
      .type_name("1.000,1.050,...");
  t.add_option("--alcohol", o->table.alcohol, "of the drink, % vol; none unless stated")
      .type_name("5");
  t.add_option("--instrument", o->with.instrument,
               "hydrometer in the notebook, with its own correction; one without error unless "
               "stated")
      .type_name("NAME");
  add_sheet_options(t, o->sheet);
  t.footer(
      "Examples:\n  areo table temperature --coldest 15C --warmest 30C\n"
      "  areo table temperature --alcohol 5 --readings 1.000,1.010,1.020\n"
      "  areo table temperature --instrument stem-1 --out stem-1.pdf");
  t.callback([=, &session, &run] {
    check_sheet_options(o->sheet, session);
    run = [=, &session] { return run_table(*o, session); };
  });
}

}  // namespace areo::cli
