// SPDX-License-Identifier: GPL-3.0-or-later
// areo compare: are the bottles of a batch really different?
#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <memory>

#include "areo/core/error.hpp"
#include "areo/core/shell_word.hpp"
#include "areo/text/format.hpp"
#include "areo/text/parse.hpp"
#include "areo/wording/batch.hpp"
#include "areo/wording/compare.hpp"
#include "areo/wording/correction_changes.hpp"
#include "areo/wording/strength.hpp"
#include "areo/wording/trend.hpp"
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

std::optional<double> within_from_text(const std::string& text) {
  if (text.empty()) return std::nullopt;
  const text::TypedNumber n = text::number_with_unit(text, "a difference");
  if (!(n.value > 0) || (!n.unit.empty() && n.unit != "%vol"))
    throw ParseError{"a difference in strength is above zero, in % vol", text, 0, text.size(),
                     "write 0.5 or 0.5%vol"};
  return n.value;
}

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

std::vector<wording::ComparedReading> contenders(const Options& o, std::vector<Batch>& batches) {
  if (!o.days.empty()) {
    batch::require_bottle(batches[0], o.bottle);
    return wording::days_of(batches[0], o.bottle, o.days);
  }
  if (batches.size() == 1) return wording::bottles_of(batches[0]);
  std::vector<wording::ComparedReading> all;
  for (Batch& batch : batches) {
    auto more = wording::named_after_batch(batch);
    if (more.empty())
      throw Error{Errc::inconsistent,
                  fmt::format("{} has no reading with a strength", batch.record().name),
                  fmt::format("areo batch show {} says why", shell_word(batch.record().name))};
    std::move(more.begin(), more.end(), std::back_inserter(all));
  }
  return all;
}

// What the strengths hold for, culture by culture.
void print_bases(const std::vector<Batch>& batches) {
  std::vector<std::string> all;
  for (const Batch& batch : batches) {
    const std::string basis = wording::basis_text(batch.record().culture);
    if (std::find(all.begin(), all.end(), basis) == all.end()) all.push_back(basis);
  }
  for (std::size_t i = 0; i + 1 < all.size(); ++i) line(all[i]);
  line(wording::basis_line(all.back()));
}

int run_compare(const Options& o, const Session& session) {
  check(o);
  const std::optional<double> within = within_from_text(o.within);
  const notebook::Notebook book = open_notebook(session, notebook::Open::read);
  std::vector<Batch> batches;
  for (const std::string& name : o.names) batches.emplace_back(book, name);
  const std::vector<wording::ComparedReading> all = contenders(o, batches);
  if (all.size() < 2)
    throw Error{Errc::inconsistent,
                fmt::format("{} has {} with a strength", o.names[0],
                            all.empty() ? "no bottle" : "one bottle only"),
                "note readings with --bottle NAME, and an original gravity of the batch"};
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
  for (const std::string& text : wording::comparison_lines(pairs, within)) line(text);
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
  print_bases(batches);
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
               "so near counts as the same, in % vol; nothing does unless stated")
      .type_name("0.3");
  c.footer(
      "Examples:\n  areo compare PT-1 --within 0.3\n  areo compare PT-1 PT-2\n"
      "  areo compare PT-1 --on 2026-03-05 --on 2026-03-09");
  c.callback([=, &session, &run] { run = [=, &session] { return run_compare(*o, session); }; });
}

}  // namespace areo::cli
