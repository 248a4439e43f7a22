// areo alcohol: original and present gravity to strength, extract, attenuation and energy.
#include <fmt/format.h>

#include <algorithm>
#include <memory>
#include <optional>

#include "areo/core/error.hpp"
#include "areo/entry/reading_resolver.hpp"
#include "areo/measurement/alcohol.hpp"
#include "areo/stream/rise_detector.hpp"
#include "areo/text/format.hpp"
#include "areo/text/json.hpp"
#include "areo/text/parse.hpp"
#include "areo/wording/limit.hpp"
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
using measurement::Fermentation;

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

// One of both: what is understood with the other would be another gravity.
measurement::WeighedSugar weighed_sugar(const Options& o) {
  const bool water = !o.water.empty();
  const std::string& volume = water ? o.water : o.made_up_to;
  using measurement::WeighedSugar;
  constexpr double usual_division_g = 1;
  const double sugar_g = text::grams_from_text(o.sugar);
  const text::TypedNumber typed = text::number_with_unit(o.sugar, "a mass");
  const WeighedSugar w{
      sugar_g, std::max(usual_division_g, typed.half_width * (typed.unit == "kg" ? 1000 : 1)),
      text::litres_from_text(volume),
      water ? WeighedSugar::Volume::of_water : WeighedSugar::Volume::made_up_to};
  for (const auto& [value, text] : {std::pair{w.sugar_g, &o.sugar}, {w.volume_l, &volume}})
    if (!(value > 0))
      throw ParseError{"weighed sugar and its volume are above zero", *text, 0, text->size()};
  return w;
}

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
          measurement::original_gravity({.readings = {}, .weighed = weighed_sugar(one)})
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

// An original with what is said about how it was typed.
struct TakenOriginal {
  measurement::Original original;
  std::string echo;
};
TakenOriginal taken_original(const entry::TakenReading& t) {
  return {{.readings = {measurement::HydrometerSample{t.instrument, t.reading}}}, t.echo};
}

AlcoholResult compute(const TakenOriginal& original, const entry::TakenReading& present,
                      ferment::Culture culture) {
  AlcoholResult a =
      measurement::alcohol(measurement::HydrometerSample{present.instrument, present.reading},
                           original.original, culture);
  auto& notes = a.result.notes;
  if (!present.echo.empty()) notes.insert(notes.begin(), "present gravity " + present.echo);
  if (!original.echo.empty()) notes.insert(notes.begin(), "original gravity " + original.echo);
  return a;
}

wording::StrengthWords words(bool weighed) {
  return {
      weighed ? "an estimate from weighed sugar, " : "",
      weighed ? "no measurable change from what weighed sugar would give" : "no measurable change",
      {"sg_20_20_original", "sg_20_20_present"},
      "the present gravity is above the original gravity",
      {"bubbles on the hydrometer; the two readings swapped or misread; a wrong",
       "temperature; sugar or juice added since; layers that were not mixed"},
      "degas the sample, let it settle to a known temperature and read again"};
}

// A result with its verdict. Not below the limit is a "no".
int tell(const Options& o, const TakenOriginal& original, const entry::TakenReading& present,
         const Session& session) {
  const bool weighed = original.original.weighed.has_value();
  const ferment::Culture culture = wording::culture_from_text(o.culture);
  const auto limit = wording::limit_from_text(o.limit, o.level);
  refuse_together(session.budget.wanted, "budget", limit.has_value(), "--limit",
                  "a budget decides nothing: leave --limit out");
  refuse_together(session.budget.wanted, "budget", o.all, "--all",
                  "a budget is of one number: leave --all out, or say --of KEY");
  const AlcoholResult a = compute(original, present, culture);
  wording::StrengthWords w = words(weighed);
  w.basis = wording::basis_text(culture);
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
    return tell(o, {{.readings = {}, .weighed = weighed_sugar(o)}, ""},
                resolver.take(o.gravities[0], or_both(o.present_temperature)), session);
  }
  const TakenOriginal original =
      taken_original(resolver.take(o.gravities[0], or_both(o.original_temperature)));
  return tell(o, original, resolver.take(o.gravities[1], or_both(o.present_temperature)), session);
}

int run_csv(const Options& o, const Session& session) {
  entry::ReadingResolver resolver = reading_resolver(session, o.with);
  stream::StreamJob job;
  job.needed = {"original", "present"};
  job.known = {"temperature", "original_temperature", "present_temperature", "culture"};
  const auto limit = wording::limit_from_text(o.limit, o.level);
  (void)wording::culture_from_text(o.culture);
  job.results = {
      "alcohol_percent_vol",      "alcohol_percent_mass",     "original_extract_percent",
      "real_extract_percent",     "apparent_extract_percent", "apparent_attenuation_percent",
      "real_attenuation_percent", "energy_kj_per_100_ml",     "rule_of_thumb_percent_vol",
      "sg_20_20_original",        "sg_20_20_present"};
  job.facts = {"state"};
  job.facts.insert(job.facts.end(), wording::bound_keys.begin(), wording::bound_keys.end());
  if (limit)
    job.facts.insert(job.facts.end(), wording::limit_keys.begin(), wording::limit_keys.end());
  for (const std::string& t : {o.temperature, o.original_temperature, o.present_temperature})
    entry::require_temperature(t);
  stream::RiseDetector rises;
  job.compute = [&](const stream::RowView& row) {
    const auto temperature = [&](const char* column, const std::string& own) {
      for (const std::string& t : {row[column], row["temperature"], own})
        if (!t.empty()) return t;
      return o.temperature;
    };
    if (row["original"].empty())
      throw Error{Errc::inconsistent, "no original gravity, so no figure for the alcohol"};
    const TakenOriginal original = taken_original(resolver.take(
        row["original"], temperature("original_temperature", o.original_temperature)));
    const std::string own = row["culture"];
    const entry::TakenReading present =
        resolver.take(row["present"], temperature("present_temperature", o.present_temperature));
    const ferment::Culture culture = wording::culture_from_text(own.empty() ? o.culture : own);
    AlcoholResult a = compute(original, present, culture);
    std::vector<text::Fact> facts{{wording::word(a.state)}};
    for (text::Fact& f : wording::bound_facts(a, wording::bound_beside(limit)))
      facts.push_back(std::move(f));
    if (limit && a.has_strength()) {
      const auto decision = analysis::decide_strength(a, limit->percent_vol, limit->level);
      a.result.notes.push_back(wording::verdict_text(*limit, a, decision));
      for (text::Fact& f : wording::limit_facts(*limit, decision)) facts.push_back(std::move(f));
    }
    if (a.state == Fermentation::above)
      a.result.notes.emplace_back(
          "present above original: bubbles, swapped or misread, "
          "temperature, sugar added, layers?");
    rises.flag(row, row["original"], a.result.at("sg_20_20_present"), a.result.notes);
    if (!a.has_bound_only()) return stream::RowOutcome{std::move(a.result), std::move(facts)};
    a.result.notes.push_back("alcohol " + wording::below_text(a, wording::bound_beside(limit)));
    return stream::RowOutcome{std::move(a.result), std::move(facts), wording::rests_on_strength()};
  };
  return stream_file(o.csv, job, o.columns, session);
}

}  // namespace

void setup_alcohol(const Command& app, const Session& session, Run& run) {
  const auto o = std::make_shared<Options>();
  auto c =
      app.add_subcommand("alcohol", "original and present gravity to alcohol, extract, energy");
  auto gravities = c.add_option("gravities", o->gravities, "original and present gravity, as read")
                       .expected(1, 2)
                       .type_name("ORIGINAL PRESENT");
  c.add_option("--temp", o->temperature, "temperature of both readings").type_name("TEMP");
  c.add_option("--original-temp", o->original_temperature, "temperature at the original gravity")
      .type_name("TEMP");
  c.add_option("--present-temp", o->present_temperature, "temperature at the present gravity")
      .type_name("TEMP");
  auto sugar = c.add_option("--sugar", o->sugar, "no original gravity: sugar that was weighed in")
                   .type_name("500g");
  auto water =
      c.add_option("--water", o->water, "the water that it went into").type_name("5L").needs(sugar);
  c.add_option("--made-up-to", o->made_up_to, "or the volume of all of it together")
      .type_name("5L")
      .needs(sugar)
      .excludes(water);
  c.add_option("--volume", o->volume, "one of both").type_name("5L").hidden();
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
      "Examples:\n  areo alcohol 1.048 1.009 --temp 20C\n"
      "  areo alcohol 1.048 1.009 --original-temp 26C --present-temp 19C --instrument stem-1\n"
      "  areo alcohol 1.004 --temp 20C --sugar 450g --water 5L\n"
      "  areo alcohol 1.018 1.016 --temp 20C --culture mixed --limit us-0.5");
  c.callback([=, &session, &run] {
    if (o->gravities.empty() && o->csv.empty())
      throw UsageError{"the gravities are missing",
                       "areo alcohol 1.048 1.009, or --csv FILE for many"};
    refuse_columns_alone(o->columns, !o->csv.empty());
    check_options(*o);
    check_sampling_options(o->sampling, !o->csv.empty(), session);
    run = [=, &session] { return o->csv.empty() ? run_one(*o, session) : run_csv(*o, session); };
  });
}

}  // namespace areo::cli
