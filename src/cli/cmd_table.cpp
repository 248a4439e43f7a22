// areo table: reference tables, computed and written row by row.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <memory>

#include "areo/core/error.hpp"
#include "areo/instruments/hydrometer.hpp"
#include "areo/measurement/convert.hpp"
#include "areo/physics/scale_name.hpp"
#include "areo/report/json.hpp"
#include "areo/report/text.hpp"
#include "areo/tables/csv.hpp"
#include "bench.hpp"
#include "command.hpp"
#include "failure.hpp"
#include "table.hpp"
#include "usage.hpp"

namespace areo::cli {
namespace {

struct Options {
  std::string from = "1.000", to = "1.120", step, columns;
  bool csv = false;
};

struct Grid {
  physics::Scale scale;
  double from, step;
  std::size_t rows;
  int decimals;  ///< of the entry column: those of the step and the start as typed
  [[nodiscard]] double at(std::size_t row) const { return from + step * static_cast<double>(row); }
};

// As fine as an ordinary hydrometer of that scale is graduated.
TypedStep usual_step(const physics::Scale& scale) {
  const double division = instruments::ordinary_hydrometer(scale).division;
  return {division, report::last_place(division * 10)};
}

Grid grid_of(const Options& o) {
  const TypedMark from = mark_from_text(o.from);
  const TypedMark to = mark_from_text(o.to);
  if (from.scale != to.scale)
    throw Error{Errc::inconsistent,
                fmt::format("the table begins in {} and ends in {}",
                            physics::scale_name(from.scale), physics::scale_name(to.scale)),
                "write both ends on one scale"};
  if (!(from.value < to.value))
    throw Error{Errc::domain, "a table goes up: --from below --to",
                "e.g. --from 1.000 --to 1.100 --step 0.001"};
  // Only where both ends are typed as 1048 is a step of 2 one of 0.002.
  const TypedStep step = o.step.empty() ? usual_step(from.scale)
                                        : step_from_text(o.step, from.in_thousands ? to : from);
  constexpr double most_rows = 10'000'000;
  const double rows = std::floor((to.value - from.value) / step.value + 1e-9) + 1;
  if (rows > most_rows)
    throw Error{Errc::domain, "more than ten million rows", "take a larger step"};
  if (rows < 2)
    throw Error{
        Errc::domain,
        fmt::format("a step of {} leaves one row between {} and {}",
                    o.step.empty() ? fmt::format("{:g}", step.value) : o.step, o.from, o.to),
        "take a smaller step"};
  const int typed = static_cast<int>(std::lround(-std::log10(2 * from.half_width)));
  return {from.scale, from.value, step.value, static_cast<std::size_t>(rows),
          std::clamp(std::max(typed, step.decimals), 0, 9)};
}

measurement::Result row_of(const Grid& g, std::size_t row, const std::vector<physics::Scale>& to) {
  return measurement::convert(g.scale, g.at(row), 0, to);
}

// More decimals than these serve nobody, however well the formulas agree.
int most_decimals(const physics::Scale& s) {
  switch (s.kind) {
    case physics::ScaleKind::specific_gravity:
    case physics::ScaleKind::apparent_gravity: return 5;
    case physics::ScaleKind::density:
    case physics::ScaleKind::baume: return 3;
    case physics::ScaleKind::plato:
    case physics::ScaleKind::brix:
    case physics::ScaleKind::oechsle:
    case physics::ScaleKind::sugar_concentration: return 2;
  }
  return 0;
}

constexpr int further_digits = 6;  // with --full

// Decimals and expanded uncertainty of the models for each column: the larger of both ends.
struct Column {
  std::string name, unit;
  int decimals = 0;
  double expanded = 0;
  std::size_t width = 0;
};
std::vector<Column> columns_of(const Grid& g, const std::vector<physics::Scale>& to, bool full) {
  const auto first = row_of(g, 0, to);
  const auto last = row_of(g, g.rows - 1, to);
  std::vector<Column> columns;
  for (std::size_t k = 0; k < to.size(); ++k) {
    Column c{physics::scale_key(to[k]), last.quantities[k].unit};
    c.expanded =
        std::max(first.quantities[k].value.expanded(), last.quantities[k].value.expanded());
    c.decimals = most_decimals(to[k]);
    if (c.expanded > 0) c.decimals = std::min(c.decimals, report::supported_decimals(c.expanded));
    if (full) c.decimals += further_digits;
    for (const auto* r : {&first, &last})
      c.width = std::max({c.width, c.name.size(),
                          report::fixed(r->quantities[k].value.estimate, c.decimals).size()});
    columns.push_back(c);
  }
  return columns;
}

void write_text(const Grid& g, const std::vector<physics::Scale>& to, bool full) {
  const std::vector<Column> columns = columns_of(g, to, full);
  const std::size_t lead = std::max<std::size_t>(physics::scale_key(g.scale).size(), 8);
  std::string head = fmt::format("{:>{}}", physics::scale_key(g.scale), lead);
  std::string doubt = fmt::format("{:>{}}", "±", lead);
  for (const Column& c : columns) {
    head += fmt::format("  {:>{}}", c.name, c.width);
    // Rounded up: a printed cell is never better than its last digit.
    const double step = std::pow(10.0, -c.decimals);
    doubt += fmt::format(
        "  {:>{}}", report::fixed(std::max(1.0, std::ceil(c.expanded / step)) * step, c.decimals),
        c.width);
  }
  line(fmt::format("unfermented sugar liquids; entry {}", physics::scale_name(g.scale)));
  line(head);
  for (std::size_t i = 0; i < g.rows; ++i) {
    const auto r = row_of(g, i, to);
    std::string out = fmt::format("{:>{}}", report::fixed(g.at(i), g.decimals), lead);
    for (std::size_t k = 0; k < columns.size(); ++k)
      out += fmt::format("  {:>{}}",
                         report::fixed(r.quantities[k].value.estimate, columns[k].decimals),
                         columns[k].width);
    line(out);
  }
  line(doubt);
  line("± about 95 %, of the density formulas alone, at the worse end of the table;");
  line("sucrose [sps4] on the water of [tanaka2001]");
}

void write_csv(const Grid& g, const std::vector<physics::Scale>& to, bool full) {
  const std::vector<Column> columns = columns_of(g, to, full);
  std::string head = "entry_" + physics::scale_key(g.scale);
  for (const Column& c : columns) head += fmt::format(",{0},{0}_U", c.name);
  raw_line(head);
  for (std::size_t i = 0; i < g.rows; ++i) {
    const auto r = row_of(g, i, to);
    std::string out = report::fixed(g.at(i), g.decimals);
    for (std::size_t k = 0; k < columns.size(); ++k) {
      const auto& v = r.quantities[k].value;
      const int decimals = columns[k].decimals;
      out +=
          "," + report::fixed(v.estimate, decimals) + "," + report::fixed(v.expanded(), decimals);
    }
    raw_line(out);
  }
}

int run_table(const Options& o, const Session& session) {
  const Grid g = grid_of(o);
  std::vector<physics::Scale> usual;
  for (const physics::Scale& s : physics::offered_scales())
    if (s != g.scale) usual.push_back(s);
  const auto to = scales_from_text(o.columns, usual);
  if (session.json)
    for (std::size_t i = 0; i < g.rows; ++i)
      raw_line(report::json_line(row_of(g, i, to), {{"entry", fmt::format("{}", g.at(i))}}));
  else if (o.csv)
    write_csv(g, to, session.full);
  else
    write_text(g, to, session.full);
  return done;
}

}  // namespace

void setup_table(const Command& app, const Session& session, Run& run) {
  const auto o = std::make_shared<Options>();
  auto c = app.add_subcommand("table", "reference tables");
  c.require_subcommand(1);
  setup_table_refractometer(c, session, run);
  auto t = c.add_subcommand("conversion", "scales side by side");
  t.add_option("--from", o->from, "first entry, on any scale; 1.000 unless stated")
      .type_name("READING");
  t.add_option("--to", o->to, "last entry, on the same scale; 1.120 unless stated")
      .type_name("READING");
  t.add_option("--step", o->step, "step between entries; a usual division unless stated")
      .type_name("0.001");
  t.add_option("--columns", o->columns, "scales, separated by commas; all unless stated")
      .type_name("P,kg/m3,...");
  t.add_flag("--csv", o->csv, "as CSV");
  t.footer(
      "Examples:\n  areo table conversion --from 1.030 --to 1.060 --step 0.001\n"
      "  areo table conversion --from 0P --to 25P --step 0.5 --columns SG,kg/m3,g/L");
  t.callback([=, &session, &run] {
    refuse_together(o->csv, "--csv", session.json, "--json", "choose one of the two forms");
    run = [=, &session] { return run_table(*o, session); };
  });
}

}  // namespace areo::cli
