// SPDX-License-Identifier: GPL-3.0-or-later
// areo refract: a refractometer reading, before or during fermentation, alone or with a hydrometer.
#include <fmt/format.h>

#include <algorithm>
#include <memory>

#include "areo/core/error.hpp"
#include "areo/core/shell_word.hpp"
#include "areo/entry/reading_resolver.hpp"
#include "areo/entry/refraction_resolver.hpp"
#include "areo/stream/refract_rows.hpp"
#include "areo/text/format.hpp"
#include "areo/text/parse.hpp"
#include "areo/wording/notes.hpp"
#include "areo/wording/result_json.hpp"
#include "areo/wording/strength_words.hpp"
#include "budget.hpp"
#include "command.hpp"
#include "extract_options.hpp"
#include "failure.hpp"
#include "open_notebook.hpp"
#include "print_strength.hpp"
#include "reading_options.hpp"
#include "refract.hpp"
#include "stream_file.hpp"
#include "usage.hpp"

namespace areo::cli {
namespace {

using measurement::AlcoholResult;

using Options = RefractOptions;

entry::RefractionResolver refraction_resolver(const Options& o, const Session& session) {
  check_extract_options(o.extract);
  return {{o.with, o.hydrometer, o.extract, o.culture}, reading_resolver(session, o.with)};
}

// What is about a hydrometer has none to act on, if none was read.
void refuse_idle(const Options& o, const entry::RefractionResolver& samples) {
  const bool read =
      !o.gravity.empty() || (!o.original.empty() && !samples.by_refractometer(o.original));
  for (const auto& [given, name] :
       {std::pair{!o.hydrometer.empty(), "--hydrometer"}, std::pair{o.with.top, "--top"}})
    if (given && !read)
      throw UsageError{
          fmt::format("{} without a hydrometer reading", name),
          fmt::format("give --gravity, or --original as 1.050; or leave {} out", name)};
}

// --- one reading ---

std::string next_step(const Options& o, const entry::TakenRefraction& taken) {
  if (taken.sample.reading.temperature.assumed)
    return "next: take the temperature of the prism and give it with --temp";
  if (taken.sample.instrument.correction.checks == 0)
    return o.with.instrument.empty()
               ? "next: register the refractometer (areo instrument add --kind refractometer) and "
                 "check it in water"
               : fmt::format("next: check it in water: areo calibrate water {} READING TEMP",
                             shell_word(o.with.instrument));
  if (o.extract.extract.empty() && o.extract.liquid.empty())
    return "next: say what is dissolved with --extract, or note pairs with a hydrometer: areo "
           "liquid pair";
  return "next: has it begun to ferment? then give its --original reading";
}

int print_unfermented(const Options& o, entry::RefractionResolver& samples,
                      const entry::TypedSample& typed, const Session& session) {
  const entry::TakenRefraction taken = samples.refraction(typed);
  const measurement::Result r = samples.unfermented(taken, text::scales_from_text(o.to, {}));
  const auto& extract = r.at("extract_percent");
  const wording::ReportedResult reported{
      r, sampling_request(o.sampling), session.full, {.check = !session.budget.wanted}};
  const std::string headline =
      fmt::format("{}  (extract, unfermented, about 95 %)", reported.text(extract));
  if (session.budget.wanted) return print_budget(r, headline, session, "unfermented");
  if (session.json) {
    raw_line(wording::json_line(reported, "unfermented"));
    return done;
  }
  line(headline);
  std::size_t shown = 1;
  if (r.quantities[1].key == "correction") {
    const uncertainty::Value& c = r.quantities[1].value;
    line(text::instruction(
        c.estimate, text::last_place(c.expanded()), "",
        fmt::format("what {} shows", taken.sample.instrument.refractometer.name)));
    ++shown;
  }
  lines(reported.lines(
      {r.quantities.begin() + static_cast<std::ptrdiff_t>(shown), r.quantities.end()}));
  lines(reported.summary(r.quantities));
  notes(wording::own_notes(r));
  line(next_step(o, taken));
  return done;
}

int refract_one(const Options& o, const Session& session) {
  entry::RefractionResolver samples = refraction_resolver(o, session);
  const auto or_same = [&](const std::string& own) { return own.empty() ? o.temperature : own; };
  refuse_idle(o, samples);
  const entry::TypedSample t{o.reading,  o.temperature,
                             o.original, or_same(o.original_temperature),
                             o.gravity,  or_same(o.gravity_temperature)};
  if (o.gravity.empty() && o.original.empty()) {
    if (o.all)
      throw UsageError{"--all is about a strength, and none is computed",
                       "give --original or --gravity, or leave --all out"};
    return print_unfermented(o, samples, t, session);
  }
  const bool pair = !o.gravity.empty();
  const AlcoholResult a = pair ? samples.paired(t) : samples.fermenting(t);
  wording::StrengthWords words =
      pair ? wording::paired_words() : wording::fermenting_words(samples.culture());
  words.all = o.all;
  const wording::ReportedResult reported{a.result, sampling_request(o.sampling), session.full,
                                         wording::reporting_plan(a, words, !session.budget.wanted)};
  return print_strength(a, words, session, reported);
}

// --- many ---

int refract_csv(const Options& o, const Session& session) {
  entry::RefractionResolver samples = refraction_resolver(o, session);
  return stream_file(o.csv,
                     stream::refract_rows(samples,
                                          {.temperature = o.temperature,
                                           .original = o.original,
                                           .original_temperature = o.original_temperature},
                                          text::scales_from_text(o.to, {physics::plato_20})),
                     o.columns, session);
}

// Every option must have something to act on.
void check_options(const Options& o) {
  refuse_together(o.all, "--all", !o.csv.empty(), "--csv", "each row has all of it");
  check_reading_options(o.with);
  refuse_columns_alone(o.columns, !o.csv.empty());
  const auto without = [](const std::string& given, const char* name, bool there, const char* what,
                          const char* hint) {
    if (!given.empty() && !there) throw UsageError{fmt::format("{} without {}", name, what), hint};
  };
  refuse_together(o.with.compensated, "--atc", !o.with.instrument.empty(), "--instrument",
                  "leave --atc out: the notebook knows whether the instrument has it");
  refuse_together(!o.csv.empty(), "--csv", !o.gravity.empty() || !o.gravity_temperature.empty(),
                  "--gravity", "a file has columns gravity and gravity_temperature");
  if (!o.csv.empty()) return;  // a row may have what the options lack
  refuse_together(!o.original.empty(), "--original", !o.gravity.empty(), "--gravity",
                  "with a gravity of the same sample no original is needed: leave one out");
  refuse_together(!o.gravity.empty(), "--gravity", !o.culture.empty(), "--culture",
                  "both readings together measure the alcohol, whatever made it: leave --culture "
                  "out");
  refuse_together(!o.to.empty(), "--to", !o.original.empty() || !o.gravity.empty(),
                  "--original or --gravity",
                  "scales are for an unfermented sample: leave --to out");
  without(o.original_temperature, "--original-temp", !o.original.empty(), "--original",
          "give the original reading, or leave --original-temp out");
  without(o.gravity_temperature, "--gravity-temp", !o.gravity.empty(), "--gravity",
          "give the gravity, or leave --gravity-temp out");
  without(o.hydrometer, "--hydrometer", !o.gravity.empty() || !o.original.empty(),
          "a hydrometer reading", "give --gravity, or --original as 1.050; or leave it out");
  without(o.culture, "--culture", !o.original.empty(), "--original",
          "it is about what the sugar became since: leave --culture out");
  check_temperature_options(
      o.with,
      !o.temperature.empty() || !o.original_temperature.empty() || !o.gravity_temperature.empty(),
      "--temp");
}

}  // namespace

int run_refract(const RefractOptions& o, const Session& session) {
  check_options(o);
  check_sampling_options(o.sampling, !o.csv.empty(), session);
  return o.csv.empty() ? refract_one(o, session) : refract_csv(o, session);
}

void setup_refract(const Command& app, const Session& session, Run& run) {
  const auto o = std::make_shared<Options>();
  o->with.refractometer = true;
  auto c = app.add_subcommand("refract", "a refractometer reading, unfermented or fermenting");
  auto reading =
      c.add_option("reading", o->words, "what the refractometer shows: 12.4Bx 24C, 1.3512nD")
          .expected(1, entry::most_words)
          .type_name("READING [TEMP]");
  c.add_option("--temp", o->temperature, "of the prism, if not behind the reading").temperature();
  c.add_option("--original", o->original,
               "reading before fermentation: 12.4Bx with the refractometer, 1.050 with a "
               "hydrometer")
      .type_name("READING");
  c.add_option("--original-temp", o->original_temperature, "its temperature; --temp unless stated")
      .temperature();
  c.add_option("--gravity", o->gravity, "hydrometer reading of the same sample, no original needed")
      .type_name("READING");
  c.add_option("--gravity-temp", o->gravity_temperature, "its temperature; --temp unless stated")
      .temperature();
  c.add_option("--instrument", o->with.instrument, "refractometer in the notebook")
      .type_name("NAME");
  c.add_option("--hydrometer", o->hydrometer, "hydrometer in the notebook").type_name("NAME");
  add_common_options(c, o->with);
  c.add_flag("--atc", o->with.compensated,
             "an unnamed refractometer with temperature compensation");
  c.add_option("--division", o->with.division,
               "smallest division of an unnamed refractometer; 0.2 Brix unless stated")
      .type_name("0.2");
  c.add_flag("--top", o->with.top,
             "hydrometer in a cloudy liquid: read at the top of the meniscus");
  add_extract_options(c, o->extract);
  c.add_option("--culture", o->culture,
               "what ferments: yeast, mixed or acetic; yeast unless stated")
      .type_name("WORD");
  add_all_option(c, o->all);
  add_sampling_options(c, o->sampling);
  c.add_option("--to", o->to, "further scales of an unfermented sample, separated by commas")
      .type_name("P,kg/m3,...");
  auto csv = c.add_option("--csv", o->csv,
                          "CSV with columns reading, temperature, original, "
                          "original_temperature, gravity, gravity_temperature, batch, bottle; "
                          "- = standard input")
                 .type_name("FILE");
  reading.excludes(csv);
  add_column_options(c, o->columns, "it goes along unread");
  c.footer(
      "Examples:\n  areo refract 12.4Bx 24C --extract sucrose\n"
      "  areo refract 7.8Bx --temp 22C --original 12.4Bx\n"
      "  areo refract 7.8Bx --temp 22C --original 1.050 --original-temp 20C --instrument prism-1\n"
      "  areo refract 7.8Bx --temp 22C --gravity 1.012 --gravity-temp 20C --hydrometer stem-1");
  c.callback([=, &session, &run] {
    if (o->words.empty() && o->csv.empty())
      throw UsageError{"the reading is missing", "areo refract 12.4Bx, or --csv FILE for many"};
    session.usual->take_reading(o->words, o->reading, o->temperature);
    run = [=, &session] { return run_refract(*o, session); };
  });
}

}  // namespace areo::cli
