// SPDX-License-Identifier: GPL-3.0-or-later
// areo alcohol: original and present gravity to strength, extract, attenuation and energy.
#include <fmt/format.h>

#include <algorithm>
#include <memory>
#include <optional>

#include "areo/core/error.hpp"
#include "areo/entry/strength.hpp"
#include "areo/measurement/alcohol.hpp"
#include "areo/stream/alcohol_rows.hpp"
#include "areo/text/format.hpp"
#include "areo/text/parse.hpp"
#include "areo/wording/limit.hpp"
#include "areo/wording/strength_words.hpp"
#include "command.hpp"
#include "failure.hpp"
#include "print_strength.hpp"
#include "reading_options.hpp"
#include "sampling_options.hpp"
#include "stream_file.hpp"
#include "usage.hpp"

namespace areo::cli {
namespace {

using measurement::AlcoholResult;

struct Options {
  std::vector<std::string> gravities;
  std::string temperature, original_temperature, present_temperature, sugar, water, made_up_to,
      volume, csv;
  std::string culture, limit, level;
  entry::ReadingOptions with;
  ColumnOptions columns;
  SamplingOptions sampling;
  bool all = false;
};

entry::TypedSugar weighed_as_typed(const Options& o) { return {o.sugar, o.water, o.made_up_to}; }

// A bare volume, with what each of its two meanings gives.
void refuse_bare_volume(const Options& o) {
  if (o.volume.empty()) return;
  std::string hint = "say --water 5L, the water that the sugar went into, or --made-up-to 5L";
  if (!o.sugar.empty()) {
    const auto gravity = [&](const std::string& water, const std::string& made_up_to) {
      Options one = o;
      one.water = water;
      one.made_up_to = made_up_to;
      return text::fixed(
          measurement::original_gravity(
              {.readings = {}, .weighed = entry::weighed_sugar(weighed_as_typed(one))})
              .at("sg_20_20_original")
              .value.estimate,
          4);
    };
    hint = fmt::format(
        "{0} of water, and {1} in it: --water {0}, original gravity {2}; {1} made up to {0} in "
        "all: "
        "--made-up-to {0}, {3}",
        o.volume, o.sugar, gravity(o.volume, ""), gravity("", o.volume));
  }
  throw UsageError{fmt::format("--volume {} may be one of two things", o.volume), hint};
}

// A result with its verdict. Not below the limit is a "no".
int tell(const Options& o, const entry::TakenOriginal& original, const entry::TakenReading& present,
         const Session& session) {
  const bool weighed = original.original.weighed.has_value();
  const ferment::Culture culture = wording::culture_from_text(o.culture);
  const auto limit = wording::limit_from_text(o.limit, o.level);
  refuse_together(session.budget.wanted, "budget", limit.has_value(), "--limit",
                  "a budget decides nothing: leave --limit out");
  refuse_together(session.budget.wanted, "budget", o.all, "--all",
                  "a budget is of one number: leave --all out, or say --of KEY");
  const AlcoholResult a = entry::strength(original, present, culture);
  wording::StrengthWords w = wording::gravity_words(weighed, culture);
  w.all = o.all;
  bool below = true;
  w.bound = wording::bound_beside(limit);
  const wording::ReportedResult reported{a.result, sampling_request(o.sampling), session.full,
                                         wording::reporting_plan(a, w, !session.budget.wanted)};
  if (limit && a.has_strength())
    below = wording::judge(*limit, a, original.original, {present.instrument, present.reading},
                           culture, reported, w);
  const int code = print_strength(a, w, session, reported);
  return below ? code : said_no;
}

// Every option must have something to act on.
void check_options(const Options& o) {
  const bool weighed = !o.sugar.empty();
  const bool present_only = o.gravities.size() == 1;
  check_reading_options(o.with);
  refuse_together(
      weighed, "--sugar", o.gravities.size() == 2, "two gravities",
      "the weighed sugar stands for an original gravity that nobody took: leave one out");
  refuse_together(weighed, "--sugar", !o.csv.empty(), "--csv", "a file needs a column 'original'");
  refuse_together(o.all, "--all", !o.csv.empty(), "--csv", "each row has all of it");
  refuse_bare_volume(o);
  if (weighed && o.water.empty() && o.made_up_to.empty())
    throw UsageError{"--sugar needs its volume",
                     "say --water 5L, the water that it went into, or --made-up-to 5L, all of it "
                     "together"};
  refuse_level_alone(o.limit, o.level);
  refuse_together(present_only && weighed, "weighed sugar", !o.original_temperature.empty(),
                  "--original-temp", "there is no original reading: leave --original-temp out");
  if (!o.csv.empty()) return;  // a row may lack its temperature
  refuse_together(
      !o.temperature.empty(), "--temp",
      !o.present_temperature.empty() && (present_only || !o.original_temperature.empty()),
      present_only ? "--present-temp" : "a temperature for each reading", "leave --temp out");
  check_temperature_options(
      o.with,
      !o.temperature.empty() || !o.original_temperature.empty() || !o.present_temperature.empty(),
      "--temp");
}

int run_one(const Options& o, const Session& session) {
  entry::ReadingResolver resolver = reading_resolver(session, o.with);
  const auto& t = o.temperature;
  const auto or_both = [&](const std::string& own) { return own.empty() ? t : own; };
  if (o.gravities.size() == 1) {
    if (o.sugar.empty())
      throw Error{Errc::inconsistent, "no original gravity, so no figure for the alcohol",
                  "if the sugar was weighed, an estimate: --sugar 500g --water 5L, or --sugar 500g "
                  "--made-up-to 5L"};
    return tell(o, {{.readings = {}, .weighed = entry::weighed_sugar(weighed_as_typed(o))}, ""},
                resolver.take(o.gravities[0], or_both(o.present_temperature)), session);
  }
  const entry::TakenOriginal original =
      entry::taken_original(resolver.take(o.gravities[0], or_both(o.original_temperature)));
  return tell(o, original, resolver.take(o.gravities[1], or_both(o.present_temperature)), session);
}

int run_csv(const Options& o, const Session& session) {
  entry::ReadingResolver resolver = reading_resolver(session, o.with);
  return stream_file(o.csv,
                     stream::alcohol_rows(resolver,
                                          {.temperature = o.temperature,
                                           .original_temperature = o.original_temperature,
                                           .present_temperature = o.present_temperature,
                                           .culture = o.culture},
                                          wording::limit_from_text(o.limit, o.level)),
                     o.columns, session);
}

}  // namespace

void setup_alcohol(const Command& app, const Session& session, Run& run) {
  const auto o = std::make_shared<Options>();
  auto c =
      app.add_subcommand("alcohol", "original and present gravity to alcohol, extract, energy");
  auto gravities = c.add_option("gravities", o->gravities, "original and present gravity, as read")
                       .expected(1, 2 * entry::most_words)
                       .type_name("ORIGINAL PRESENT [TEMP]");
  c.add_option("--temp", o->temperature, "temperature of both readings").temperature();
  c.add_option("--original-temp", o->original_temperature, "temperature at the original gravity")
      .temperature();
  c.add_option("--present-temp", o->present_temperature, "temperature at the present gravity")
      .temperature();
  auto sugar = c.add_option("--sugar", o->sugar, "no original gravity: sugar that was weighed in")
                   .mass("500g");
  auto water =
      c.add_option("--water", o->water, "the water that it went into").volume("5L").needs(sugar);
  c.add_option("--made-up-to", o->made_up_to, "or the volume of all of it together")
      .volume("5L")
      .needs(sugar)
      .excludes(water);
  c.add_option("--volume", o->volume, "one of both").volume("5L").hidden();
  c.add_option("--culture", o->culture,
               "what ferments: yeast, mixed or acetic; yeast unless stated")
      .type_name("WORD");
  c.add_option("--limit", o->limit, "decide on which side of a limit it lies: 0.5, us-0.5")
      .type_name("LIMIT");
  c.add_option("--level", o->level, "with what probability; 95 % unless stated").type_name("95");
  add_all_option(c, o->all);
  add_sampling_options(c, o->sampling);
  add_reading_options(c, o->with);
  auto csv = c.add_option("--csv", o->csv,
                          "CSV with columns original, present, temperature (or "
                          "original_temperature, present_temperature), culture, batch, bottle; - = "
                          "standard input")
                 .type_name("FILE");
  gravities.excludes(csv);
  add_column_options(c, o->columns, "it goes along unread");
  c.footer(
      "Examples:\n  areo alcohol 1.048 1.009 20C\n"
      "  areo alcohol 1.048 26C 1.009 19C --instrument stem-1\n"
      "  areo alcohol 1.004 --temp 20C --sugar 450g --water 5L\n"
      "  areo alcohol 1.018 1.016 --temp 20C --culture mixed --limit us-0.5");
  c.callback([=, &session, &run] {
    if (o->gravities.empty() && o->csv.empty())
      throw UsageError{"the gravities are missing",
                       "areo alcohol 1.048 1.009, or --csv FILE for many"};
    refuse_columns_alone(o->columns, !o->csv.empty());
    session.usual->take_readings(o->gravities, o->temperature, o->original_temperature,
                                 o->present_temperature);
    check_options(*o);
    check_sampling_options(o->sampling, !o->csv.empty(), session);
    run = [=, &session] { return o->csv.empty() ? run_one(*o, session) : run_csv(*o, session); };
  });
}

}  // namespace areo::cli
