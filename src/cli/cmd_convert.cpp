// areo convert: a value on one scale, on others.
#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <memory>

#include "areo/core/error.hpp"
#include "areo/measurement/convert.hpp"
#include "areo/physics/scale_name.hpp"
#include "areo/report/json.hpp"
#include "bench.hpp"
#include "command.hpp"
#include "parse.hpp"
#include "stream.hpp"
#include "usage.hpp"

namespace areo::cli {
namespace {

struct Options {
  std::string value, to, csv;
};

struct Converted {
  measurement::Result result;
  std::string of;    ///< what the numbers are about
  std::string echo;  ///< how the text was understood, if not as typed
};

Converted convert(const std::string& text, const std::vector<physics::Scale>& to) {
  const TypedNumber n = number_with_unit(text, "a value");
  const char* mixture = "ethanol and water at 20 °C";
  if (n.unit == "%vol")
    return {measurement::convert_strength(StrengthByVolume{n.value}, n.half_width), mixture, ""};
  if (n.unit == "%mass")
    return {measurement::convert_strength(StrengthByMass{n.value}, n.half_width), mixture, ""};
  const TypedMark mark = mark_from_text(text);
  return {measurement::convert(mark.scale, mark.value, mark.half_width, to), "unfermented",
          mark.echo};
}

int run_one(const Options& o, const Session& session) {
  Converted c = convert(o.value, scales_from_text(o.to, physics::offered_scales()));
  if (!c.echo.empty()) c.result.notes.insert(c.result.notes.begin(), c.echo);
  if (session.json) {
    raw_line(report::json_line(c.result));
    return 0;
  }
  line(fmt::format("{} ({}; ± about 95 %, as far as it was typed)", o.value, c.of));
  quantity_lines(c.result.quantities, session.full);
  notes(c.result.notes);
  return 0;
}

int run_csv(const Options& o, const Session& session) {
  const auto to = scales_from_text(o.to, physics::offered_scales());
  StreamJob job;
  job.needed = {"value"};
  for (const physics::Scale& s : to) job.results.push_back(physics::scale_key(s));
  job.compute = [&to](const RowView& row) {
    const TypedMark mark = mark_from_text(row["value"]);
    RowOutcome out{measurement::convert(mark.scale, mark.value, mark.half_width, to), ""};
    if (!mark.echo.empty()) out.result.notes.insert(out.result.notes.begin(), mark.echo);
    return out;
  };
  return run_stream(o.csv, job, session);
}

}  // namespace

void setup_convert(CLI::App& app, const Session& session, Run& run) {
  const auto o = std::make_shared<Options>();
  auto* c = app.add_subcommand("convert", "a value on one scale, on others");
  auto* value =
      c->add_option("value", o->value, "1.048, 12.5P, 9.8Bx, 6.5Be, 1048kg/m3, 120g/L, 5%vol");
  c->add_option("--to", o->to, "scales, separated by commas; all unless stated")
      ->type_name("SG,P,...");
  auto* csv =
      c->add_option("--csv", o->csv, "CSV with a column 'value', row by row; - = standard input")
          ->type_name("FILE");
  value->excludes(csv);
  c->footer(
      "Examples:\n  areo convert 1.048\n  areo convert 12.5P --to SG,kg/m3@15C\n"
      "  areo convert --csv values.csv --to P");
  c->callback([=, &session, &run] {
    if (o->value.empty() && o->csv.empty())
      throw UsageError{"the value is missing", "areo convert 1.048, or --csv FILE for many"};
    run = [=, &session] { return o->csv.empty() ? run_one(*o, session) : run_csv(*o, session); };
  });
}

}  // namespace areo::cli
