// SPDX-License-Identifier: GPL-3.0-or-later
// areo convert: a value on one scale, on others.
#include <fmt/format.h>

#include <memory>

#include "areo/core/error.hpp"
#include "areo/entry/converted.hpp"
#include "areo/stream/convert_rows.hpp"
#include "areo/text/format.hpp"
#include "areo/wording/notes.hpp"
#include "areo/wording/result_json.hpp"
#include "budget.hpp"
#include "command.hpp"
#include "sampling_options.hpp"
#include "stream_file.hpp"
#include "usage.hpp"

namespace areo::cli {
namespace {

struct Options {
  std::string value, to, csv;
  ColumnOptions columns;
  SamplingOptions sampling;
};

int run_one(const Options& o, const Session& session) {
  entry::Converted c = entry::converted(o.value, entry::convert_to_from_text(o.to));
  if (c.strength && !o.to.empty())
    throw Error{Errc::inconsistent,
                fmt::format("{}: {}, not to {}", o.value, entry::strengths_only, o.to),
                "leave --to out; a drink's strength follows from two gravities: areo alcohol"};
  if (!c.echo.empty())
    c.result.notes.insert(c.result.notes.begin(), measurement::note::Said{c.echo});
  const std::string headline =
      fmt::format("{} ({}; ± about 95 %, as far as it was typed)", o.value, c.of);
  if (session.budget.wanted) return print_budget(c.result, headline, session);
  const wording::ReportedResult reported{c.result, sampling_request(o.sampling), session.full};
  if (session.json) {
    raw_line(wording::json_line(reported));
    return 0;
  }
  line(headline);
  lines(reported.lines(c.result.quantities));
  lines(reported.summary(c.result.quantities));
  notes(wording::all_notes(c.result));
  return 0;
}

int run_csv(const Options& o, const Session& session) {
  return stream_file(o.csv, stream::convert_rows(entry::convert_to_from_text(o.to)), o.columns,
                     session);
}

}  // namespace

void setup_convert(const Command& app, const Session& session, Run& run) {
  const auto o = std::make_shared<Options>();
  auto c = app.add_subcommand("convert", "a value on one scale, on others");
  auto value =
      c.add_option("value", o->value, "1.048, 12.5P, 9.8Bx, 6.5Be, 1048kg/m3, 120g/L, 5%vol");
  c.add_option("--to", o->to,
               "scales, nD (index at 20 °C), potential (alcohol), separated by commas; all unless "
               "stated")
      .type_name("SG,P,...");
  add_sampling_options(c, o->sampling);
  auto csv =
      c.add_option("--csv", o->csv, "CSV with a column 'value', row by row; - = standard input")
          .type_name("FILE");
  value.excludes(csv);
  add_column_options(c, o->columns, "it goes along unread");
  c.footer(
      "Examples:\n  areo convert 1.048\n  areo convert 12.5P --to SG,kg/m3@15C\n"
      "  areo convert --csv values.csv --to P");
  c.callback([=, &session, &run] {
    if (o->value.empty() && o->csv.empty())
      throw UsageError{"the value is missing", "areo convert 1.048, or --csv FILE for many"};
    refuse_columns_alone(o->columns, !o->csv.empty());
    check_sampling_options(o->sampling, !o->csv.empty(), session);
    run = [=, &session] { return o->csv.empty() ? run_one(*o, session) : run_csv(*o, session); };
  });
}

}  // namespace areo::cli
