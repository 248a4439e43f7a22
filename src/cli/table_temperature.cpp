// areo table temperature: what to add to a hydrometer's reading at each temperature.
#include <fmt/format.h>

#include <algorithm>
#include <memory>

#include "areo/entry/reading_resolver.hpp"
#include "areo/physics/scale_name.hpp"
#include "reading_options.hpp"
#include "table.hpp"
#include "temperature_grid.hpp"

namespace areo::cli {
namespace {

struct Options {
  std::string coldest = "10C", warmest = "35C", step = "1C";
  std::string readings, alcohol;
  entry::ReadingOptions with;
  SheetOptions sheet;
};

constexpr int marks_a_scale = 8;  // and one
constexpr const char* usual_readings = "1.000,1.010,1.020,1.030,1.040,1.050,1.060,1.080,1.100";

// Of a correction: a reading has fewer digits than a conversion.
int correction_decimals(const physics::Scale& s) { return std::max(2, most_decimals(s) - 1); }

int run_table(const Options& o, const Session& session) {
  entry::ReadingResolver resolver = reading_resolver(session, o.with);
  std::optional<measurement::Calibrated> named;
  if (!o.with.instrument.empty()) named = resolver.hydrometer(o.with.instrument);
  const std::string readings =
      !o.readings.empty() ? o.readings
      : named             ? possible_marks(marks_of({.lo = named->hydrometer.lo,
                                                     .hi = named->hydrometer.hi,
                                                     .division = named->hydrometer.division,
                                                     .length = named->hydrometer.scale_length(),
                                                     .maximum_permissible_error = 0},
                                                    marks_a_scale),
                                           named->hydrometer.scale)
                          : usual_readings;
  const MarkAxis top =
      listed_marks(readings, named ? std::optional{named->hydrometer.scale} : std::nullopt);
  instruments::Hydrometer ideal = instruments::ordinary_hydrometer(top.scale);
  ideal.lo = top.axis.listed.front();
  ideal.hi = top.axis.listed.back();
  const measurement::Calibrated instrument = named ? *named : measurement::without_error(ideal);
  const TemperatureAxis side = temperature_axis(o.coldest, o.warmest, o.step);
  const StrengthByVolume alcohol = strength_from_text(o.alcohol);

  const std::string whose = !named ? "an instrument without error"
                            : named->correction.checks > 0
                                ? named->hydrometer.name + " with its own correction"
                                : named->hydrometer.name + ", whose own correction nobody knows";
  Grid g = temperature_grid(instrument, side, top, alcohol, correction_decimals(top.scale));
  if (shape_of(o.sheet) == Shape::for_people) g.rows.name = "liquid";  // ten columns then fit
  g.title = fmt::format("What to add to a reading on {}, by the temperature of the liquid",
                        physics::scale_name(top.scale));
  g.lines = {fmt::format("{}; {}: plus is added, minus taken off",
                         alcohol.value() > 0
                             ? fmt::format("a drink with {:g} % vol", alcohol.value())
                             : "sugar liquids without alcohol",
                         whose)};
  g.doubt = named ? "of its calibration, its glass and the formulas; not of the reading"
                  : "of glass and formulas; not of the instrument, not of the reading";
  g.notes = instrument.correction.remarks;
  return write_grid(g, o.sheet, session);
}

}  // namespace

void setup_table_temperature(const Command& tables, const Session& session, Run& run) {
  const auto o = std::make_shared<Options>();
  auto t = tables.add_subcommand("temperature",
                                 "what to add to a hydrometer reading at each temperature");
  t.add_option("--coldest", o->coldest, "first row; 10C unless stated").type_name("TEMP");
  t.add_option("--warmest", o->warmest, "last row; 35C unless stated").type_name("TEMP");
  t.add_option("--step", o->step, "between rows; 1C unless stated").type_name("1C");
  t.add_option("--readings", o->readings,
               "columns, on any scale; 1.000 to 1.100 unless stated, or the instrument's own")
      .type_name("1.000,1.050,...");
  t.add_option("--alcohol", o->alcohol, "of the drink, % vol; none unless stated").type_name("5");
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
