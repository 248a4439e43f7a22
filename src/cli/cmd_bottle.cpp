// SPDX-License-Identifier: GPL-3.0-or-later
// areo bottle: what is left to ferment, and the pressure it could make in a closed bottle.
#include <fmt/format.h>

#include <algorithm>
#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "areo/core/error.hpp"
#include "areo/core/shell_word.hpp"
#include "areo/measurement/bottle.hpp"
#include "areo/physics/carbon_dioxide.hpp"
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

struct Options {
  std::string name, bottle, temperature, storage, headspace, expected, carbonation, volume, rating;
};

// What could be read of the drink last, and goes with the other readings.
const Point& last_of(const Batch& batch, const trend::History& h, const std::string& bottle) {
  const std::string& name = batch.record().name;
  const auto last = std::find_if(h.points.rbegin(), h.points.rend(), [&](const Point& p) {
    return p.computed() && p.sample.first().stage == notebook::Stage::present &&
           !h.is_odd(static_cast<std::size_t>(&p - h.points.data()));
  });
  if (last == h.points.rend())
    throw Error{Errc::inconsistent, fmt::format("{} was not read since its original gravity", name),
                fmt::format("read it before a bottle is closed: areo reading add {} 1.010",
                            shell_word(name))};
  if (!last->drink)
    throw Error{
        Errc::inconsistent,
        fmt::format("{} has no original gravity, so what is left of its sugar is unknown", name),
        "the gravity alone does not tell sugar from alcohol; close no bottle on it"};
  if (batch.added_since(last->sample, bottle))
    throw Error{Errc::inconsistent,
                fmt::format("something was added to {} since its last reading",
                            bottle.empty() ? name : "bottle " + bottle),
                "mix it well and read again; what is left of its sugar is unknown until then"};
  return *last;
}

// What was read of the whole is old when bottles were read since.
void refuse_bottles(const Batch& batch) {
  std::string names;
  for (const std::string& bottle : batch.bottles())
    if (!bottle.empty()) names += (names.empty() ? "" : ", ") + bottle;
  if (!names.empty())
    throw Error{Errc::inconsistent,
                fmt::format("{} has bottles with readings of their own", batch.record().name),
                fmt::format("say --bottle NAME; there are: {}", names)};
}

instruments::TemperatureReading closing_temperature(Batch& batch, const Point& p,
                                                    const std::string& typed) {
  if (typed.empty()) {
    const auto& first = p.sample.first();
    return batch.shelf().temperature(celsius_point(20), first.temperature_c,
                                     first.temperature_half_width_c, first.thermometer,
                                     first.made_at);
  }
  instruments::TemperatureReading t;
  t.indication_c = text::liquid_celsius_from_text(typed);
  t.half_width_c = std::max(t.half_width_c, text::celsius_half_width(typed));
  return t;
}

// All but the temperature of the drink.
BottlePlan plan_from(const Options& o) {
  BottlePlan plan;
  if (!o.storage.empty()) {
    plan.storage_c = text::celsius_from_text(o.storage);
    require(physics::solubility_temperature_range, plan.storage_c);
    plan.storage_half_width_c = std::max(instruments::TemperatureReading{}.half_width_c,
                                         text::celsius_half_width(o.storage));
  }
  if (!o.headspace.empty()) {
    const text::TypedShare share = text::headspace_from_text(o.headspace);
    plan.headspace = share.value;
    plan.headspace_half_width = share.half_width;
  }
  plan.expected_sg = text::expected_end_from_text(o.expected);
  if (!o.carbonation.empty()) plan.carbonation = text::carbonation_from_text(o.carbonation);
  if (!o.volume.empty()) plan.volume_l = text::litres_from_text(o.volume);
  return plan;
}

// A later reading that says nothing is no reason to forget it.
void note_refused_since(const trend::History& h, const Point& last,
                        std::vector<measurement::Note>& notes) {
  for (const Point& p : h.points)
    if (!p.computed() && p.sample.at() > last.sample.at())
      notes.push_back(fmt::format("reading {} came later and could not be computed: {}",
                                  wording::numbers(p.sample), p.refused));
}

int run_bottle(const Options& o, const Session& session) {
  BottlePlan plan = plan_from(o);
  std::optional<Pressure> rating;
  if (!o.rating.empty()) rating = text::rating_from_text(o.rating);
  if (!o.temperature.empty()) (void)text::liquid_celsius_from_text(o.temperature);
  const notebook::Notebook book = open_notebook(session, notebook::Open::read);
  Batch batch{book, o.name};
  batch::require_bottle(batch, o.bottle);
  if (o.bottle.empty()) refuse_bottles(batch);
  trend::History h = trend::history_of(batch, o.bottle);
  (void)wording::note_corrections(batch, h.points);
  const Point& point = last_of(batch, h, o.bottle);
  plan.closing = closing_temperature(batch, point, o.temperature);
  if (!plan.volume_l && o.bottle.empty()) plan.volume_l = batch.record().volume_l;
  const bool stuck = trend::is_stuck(h, plan.expected_sg);
  plan.at_rest = h.state.phase == trend::Phase::steady && !stuck;
  BottleResult outcome = measurement::bottle(*point.drink, plan);
  note_refused_since(h, point, outcome.result.notes);
  for (std::string& text : wording::odd_notes(h)) outcome.result.notes.push_back(std::move(text));
  const wording::BottleReport told{.batch = batch,
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
    raw_line(wording::bottle_json(told));
  } else {
    lines(wording::bottle_lines(told, session.full));
    table(wording::case_rows(told, session.full));
    lines(wording::bottle_advice(told, session.full));
  }
  return !rating || wording::answers(told) ? done : said_no;
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
      .type_name("TEMP");
  c.add_option("--storage", o->storage, "the warmest that bottles are kept; 25C ± 5C unless stated")
      .type_name("TEMP");
  c.add_option("--headspace", o->headspace, "share of a bottle without drink; 4% unless stated")
      .type_name("4%");
  c.add_option("--expected", o->expected, "where it should end").type_name("1.004");
  auto carbonation =
      c.add_option("--carbonation", o->carbonation, "wanted: prints the table sugar that it takes")
          .type_name("5g/L");
  c.add_option("--volume", o->volume, "of drink to be primed; that of the batch unless stated")
      .type_name("5L")
      .needs(carbonation);
  c.add_option("--rating", o->rating, "what the maker of the bottle rates it for")
      .type_name("6bar");
  c.footer(
      "Examples:\n  areo bottle PT-1 --storage 25C --rating 6bar\n"
      "  areo bottle PT-1 --bottle A --expected 1.004 --carbonation 5g/L");
  c.callback([=, &session, &run] { run = [=, &session] { return run_bottle(*o, session); }; });
}

}  // namespace areo::cli
