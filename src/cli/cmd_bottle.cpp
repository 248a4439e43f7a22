// SPDX-License-Identifier: GPL-3.0-or-later
// areo bottle: what is left to ferment, and the pressure it could make in a closed bottle.
#include <fmt/format.h>

#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "areo/core/error.hpp"
#include "areo/entry/bottle_entry.hpp"
#include "areo/measurement/bottle.hpp"
#include "areo/text/parse.hpp"
#include "areo/trend/history.hpp"
#include "areo/wording/batch.hpp"
#include "areo/wording/bottle.hpp"
#include "areo/wording/correction_changes.hpp"
#include "areo/wording/trend.hpp"
#include "command.hpp"
#include "failure.hpp"
#include "open_notebook.hpp"

namespace areo::cli {
namespace {

using batch::Batch;
using batch::Point;
using measurement::BottlePlan;
using measurement::BottleResult;

struct Options : entry::TypedBottlePlan {
  std::string name, bottle, rating;
};

int run_bottle(const Options& o, const Session& session) {
  BottlePlan plan = entry::bottle_plan(o);
  std::optional<Pressure> rating;
  if (!o.rating.empty()) rating = text::rating_from_text(o.rating);
  if (!o.temperature.empty()) (void)text::liquid_celsius_from_text(o.temperature);
  const notebook::Notebook book = open_notebook(session, notebook::Open::read);
  Batch batch{book, o.name};
  batch::require_bottle(batch, o.bottle);
  if (o.bottle.empty()) batch::refuse_bottles(batch);
  trend::History h = trend::history_of(batch, o.bottle);
  (void)wording::note_corrections(batch, h.points);
  const Point& point = trend::last_before_closing(batch, h, o.bottle);
  plan.closing = entry::closing_temperature(batch, point, o.temperature);
  if (!plan.volume_l && o.bottle.empty()) plan.volume_l = batch.record().volume_l;
  const bool stuck = trend::is_stuck(h, plan.expected_sg);
  plan.at_rest = h.state.phase == trend::Phase::steady && !stuck;
  BottleResult outcome = measurement::bottle(*point.drink, plan);
  for (std::string& text : wording::refused_since(h, point))
    outcome.result.notes.emplace_back(measurement::note::Said{std::move(text)});
  for (std::string& text : wording::odd_notes(h))
    outcome.result.notes.emplace_back(measurement::note::Said{std::move(text)});
  const wording::BottleReport report{.batch = batch,
                                     .bottle = o.bottle,
                                     .point = point,
                                     .history = h,
                                     .stuck = stuck,
                                     .plan = plan,
                                     .storage_stated = !o.storage.empty(),
                                     .outcome = outcome,
                                     .rating = rating,
                                     .cases = wording::cases_of(plan, outcome.priming)};
  if (session.json) {
    raw_line(wording::bottle_json(report));
  } else {
    lines(wording::bottle_lines(report, session.full));
    table(wording::case_rows(report, session.full));
    lines(wording::bottle_advice(report, session.full));
  }
  return !rating || wording::answers(report) ? done : said_no;
}

}  // namespace

void setup_bottle(const Command& app, const Session& session, Run& run) {
  const auto o = std::make_shared<Options>();
  auto c = app.add_subcommand("bottle", "what could still ferment, and its pressure in a bottle");
  c.add_option("name", o->name, "the batch").required();
  c.add_option("--bottle", o->bottle, "of which bottle; the batch as a whole unless stated")
      .type_name("NAME");
  c.add_option("--temp", o->temperature,
               "of the drink when a bottle is closed; that of its last reading unless stated")
      .temperature();
  c.add_option("--storage", o->storage, "the warmest that bottles are kept; 25C ± 5C unless stated")
      .temperature();
  c.add_option("--headspace", o->headspace, "share of a bottle without drink; 4% unless stated")
      .type_name("4%");
  c.add_option("--expected", o->expected, "where it should end").type_name("1.004");
  auto carbonation =
      c.add_option("--carbonation", o->carbonation, "wanted: prints the table sugar that it takes")
          .type_name("5g/L");
  c.add_option("--volume", o->volume, "of drink to be primed; that of the batch unless stated")
      .volume("5L")
      .needs(carbonation);
  c.add_option("--rating", o->rating, "what the maker of the bottle rates it for").pressure("6bar");
  c.footer(
      "Examples:\n  areo bottle PT-1 --storage 25C --rating 6bar\n"
      "  areo bottle PT-1 --bottle A --expected 1.004 --carbonation 5g/L");
  c.callback([=, &session, &run] { run = [=, &session] { return run_bottle(*o, session); }; });
}

}  // namespace areo::cli
