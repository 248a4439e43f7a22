// SPDX-License-Identifier: GPL-3.0-or-later
// areo compare: are the bottles of a batch really different?
#include <fmt/format.h>

#include <algorithm>
#include <memory>

#include "areo/wording/batch.hpp"
#include "areo/wording/compare.hpp"
#include "areo/wording/correction_changes.hpp"
#include "command.hpp"
#include "failure.hpp"
#include "open_notebook.hpp"

namespace areo::cli {
namespace {

using batch::Batch;
using batch::Point;

struct Options {
  std::vector<std::string> names, days;
  std::string bottle, within;
};

std::vector<Batch*> pointers(std::vector<Batch>& batches) {
  std::vector<Batch*> all;
  all.reserve(batches.size());
  for (Batch& batch : batches) all.push_back(&batch);
  return all;
}

void check(const Options& o) {
  if (o.names.size() > 1 && !o.days.empty())
    throw UsageError{"days are compared within one batch", "name one batch, or leave --on out"};
  if (o.days.size() == 1)
    throw UsageError{"one day has nothing to be compared with", "say --on DAY --on ANOTHER"};
  if (!o.bottle.empty() && o.days.empty())
    throw UsageError{"--bottle says of which bottle days are compared",
                     "say --on DAY --on ANOTHER, or leave --bottle out"};
  for (std::size_t i = 0; i < o.names.size(); ++i)
    if (std::count(o.names.begin(), o.names.end(), o.names[i]) > 1)
      throw UsageError{fmt::format("{} is named twice", o.names[i]), "name each batch once"};
}

int run_compare(const Options& o, const Session& session) {
  check(o);
  const std::optional<double> within = wording::within_from_text(o.within);
  const notebook::Notebook book = open_notebook(session, notebook::Open::read);
  std::vector<Batch> batches;
  for (const std::string& name : o.names) batches.emplace_back(book, name);
  const std::vector<wording::ComparedReading> all =
      wording::compared_of(pointers(batches), o.bottle, o.days);
  const std::vector<wording::ComparedPair> pairs =
      wording::pairs_of(all, pointers(batches), within);
  if (session.json) {
    wording::each_comparison_json(pointers(batches), all, pairs, within, raw_line);
    return done;
  }
  for (const Batch& batch : batches) line(wording::batch_text(batch.record()));
  const char* what = !o.days.empty() ? "day" : batches.size() > 1 ? "batch" : "bottle";
  table(wording::compared_rows(all, what, session.full));
  line(fmt::format("  {}", wording::column_level));
  table(wording::comparison_matrix(all, pairs));
  lines(wording::comparison_lines(pairs, within));
  if (!o.days.empty())
    notes(wording::notes_on_additions(batches[0], all));
  else if (batches.size() == 1)
    notes(wording::notes_on_time(pairs));
  std::vector<Point> points;
  points.reserve(all.size());
  for (const wording::ComparedReading& c : all) points.push_back(c.point);
  notes(wording::notes_on_odd(all));
  notes(wording::notes_on_rounding(pointers(batches)));
  notes(wording::notes_on_corrections(pointers(batches), pairs));
  notes(wording::notes_of(points));
  lines(wording::bases_lines(pointers(batches)));
  return done;
}

}  // namespace

void setup_compare(const Command& app, const Session& session, Run& run) {
  const auto o = std::make_shared<Options>();
  auto c = app.add_subcommand("compare", "are bottles, batches or days really different?");
  c.add_option("name", o->names, "the batch, whose bottles are compared; or several batches")
      .required();
  c.add_option("--on", o->days, "compare what was read until this day with another one")
      .type_name("DAY");
  c.add_option("--bottle", o->bottle, "of which bottle the days are").type_name("NAME");
  c.add_option("--within", o->within,
               "drinks this close count as the same, in % vol; none do unless stated")
      .type_name("0.3");
  c.footer(
      "Examples:\n  areo compare PT-1 --within 0.3\n  areo compare PT-1 PT-2\n"
      "  areo compare PT-1 --on 2026-03-05 --on 2026-03-09");
  c.callback([=, &session, &run] { run = [=, &session] { return run_compare(*o, session); }; });
}

}  // namespace areo::cli
