// SPDX-License-Identifier: GPL-3.0-or-later
// areo correct: a hydrometer reading, brought to what it means.
#include <fmt/format.h>

#include <memory>

#include "areo/core/shell_word.hpp"
#include "areo/entry/corrected.hpp"
#include "areo/stream/correct_rows.hpp"
#include "areo/text/format.hpp"
#include "areo/text/parse.hpp"
#include "areo/wording/notes.hpp"
#include "areo/wording/result_json.hpp"
#include "budget.hpp"
#include "command.hpp"
#include "open_notebook.hpp"
#include "reading_options.hpp"
#include "refract.hpp"
#include "sampling_options.hpp"
#include "stream_file.hpp"
#include "usage.hpp"

namespace areo::cli {
namespace {

struct Options {
  std::vector<std::string> words;
  std::string reading, temperature, original, original_temperature, to, csv;
  entry::ReadingOptions with;
  ColumnOptions columns;
  SamplingOptions sampling;
};

std::string next_step(const Options& o, const entry::Corrected& c) {
  if (c.taken.reading.temperature.assumed)
    return "next: take the temperature of the sample and give it with --temp";
  if (c.taken.instrument.correction.checks == 0)
    return o.with.instrument.empty()
               ? "next: register the hydrometer (areo instrument add) and check it in water"
               : fmt::format("next: check it in water: areo calibrate water {} READING TEMP",
                             shell_word(o.with.instrument));
  if (o.original.empty()) return "next: has it begun to ferment? then give its --original gravity";
  return "next: write down the reading, the temperature and this line";
}

// Of one reading everything is known, so that an option without effect is a mistake.
void check_one(const Options& o) {
  if (!o.original_temperature.empty() && o.original.empty())
    throw UsageError{"--original-temp without --original: there is no original gravity",
                     "give the original gravity, or leave --original-temp out"};
  check_temperature_options(o.with, !o.temperature.empty() || !o.original_temperature.empty(),
                            "--temp");
}

int run_one(const Options& o, const Session& session) {
  entry::ReadingResolver resolver = reading_resolver(session, o.with);
  const entry::Corrected c =
      entry::corrected(resolver, {o.reading, o.temperature, o.original, o.original_temperature},
                       text::scales_from_text(o.to, {}));
  const auto& q = c.result.quantities;
  const measurement::Quantity& own = q[0];
  const measurement::Quantity& correction = q[1];
  const wording::ReportedResult reported{
      c.result, sampling_request(o.sampling), session.full, {.check = !session.budget.wanted}};
  const std::string headline = fmt::format("{}  ({}, about 95 %)", reported.text(own), own.name);
  if (session.budget.wanted) return print_budget(c.result, headline, session);
  if (session.json) {
    raw_line(wording::json_line(reported));
    return 0;
  }
  line(headline);
  const std::string at = c.taken.reading.temperature.assumed
                             ? "its reference temperature"
                             : session.usual->told(c.taken.reading.temperature.indication_c);
  line(text::instruction(
      correction.value.estimate, text::last_place(correction.value.expanded()), "",
      fmt::format("what {} shows at {}", c.taken.instrument.hydrometer.name, at)));
  lines(reported.lines({q.begin() + 2, q.end()}));
  lines(reported.summary(q));
  notes(wording::own_notes(c.result));
  line(next_step(o, c));
  return 0;
}

int run_csv(const Options& o, const Session& session) {
  entry::ReadingResolver resolver = reading_resolver(session, o.with);
  return stream_file(
      o.csv,
      stream::correct_rows(resolver,
                           {.temperature = o.temperature,
                            .original = o.original,
                            .original_temperature = o.original_temperature},
                           text::scales_from_text(o.to, {physics::sg_20_20, physics::plato_20})),
      o.columns, session);
}

// A reading of a named refractometer means what areo refract says.
bool is_refraction(const Options& o, const Session& session) {
  return !o.with.instrument.empty() &&
         session.book->get().instrument(o.with.instrument).refractometer() != nullptr;
}

int run_as_refraction(const Options& o, const Session& session) {
  refuse_together(o.with.top, "--top", true, "a refractometer",
                  "it has no meniscus: leave --top out");
  RefractOptions r;
  r.reading = o.reading;
  r.temperature = o.temperature;
  r.original = o.original;
  r.original_temperature = o.original_temperature;
  r.to = o.to;
  r.csv = o.csv;
  r.columns = o.columns;
  r.with = o.with;
  r.sampling = o.sampling;
  r.with.refractometer = true;
  return run_refract(r, session);
}

}  // namespace

void setup_correct(const Command& app, const Session& session, Run& run) {
  const auto o = std::make_shared<Options>();
  auto c =
      app.add_subcommand("correct", "a hydrometer reading, brought to its reference temperature");
  auto reading = c.add_option("reading", o->words, "what the hydrometer shows: 1.048 27C, 12.5P")
                     .expected(1, entry::most_words)
                     .type_name("READING [TEMP]");
  c.add_option("--temp", o->temperature, "of the sample, if not behind the reading").temperature();
  c.add_option("--original", o->original, "original gravity, if the sample has fermented")
      .type_name("READING");
  c.add_option("--original-temp", o->original_temperature, "temperature at the original gravity")
      .temperature();
  c.add_option("--to", o->to, "further scales, separated by commas").type_name("P,kg/m3,...");
  add_sampling_options(c, o->sampling);
  add_reading_options(c, o->with);
  auto csv =
      c.add_option("--csv", o->csv,
                   "CSV with columns reading, temperature, original, original_temperature, batch, "
                   "bottle; - = standard input")
          .type_name("FILE");
  reading.excludes(csv);
  add_column_options(c, o->columns, "it goes along unread");
  c.footer(
      "Examples:\n  areo correct 1.048 27C --instrument stem-1\n"
      "  areo correct 1.021 --temp 24C --original 1.052 --original-temp 20C --to P\n"
      "  areo correct --csv readings.csv");
  c.callback([=, &session, &run] {
    if (o->words.empty() && o->csv.empty())
      throw UsageError{"the reading is missing", "areo correct 1.048 20C, or --csv FILE for many"};
    session.usual->take_reading(o->words, o->reading, o->temperature);
    refuse_columns_alone(o->columns, !o->csv.empty());
    check_reading_options(o->with);
    check_sampling_options(o->sampling, !o->csv.empty(), session);
    if (o->csv.empty()) check_one(*o);
    run = [=, &session] {
      if (is_refraction(*o, session)) return run_as_refraction(*o, session);
      return o->csv.empty() ? run_one(*o, session) : run_csv(*o, session);
    };
  });
}

}  // namespace areo::cli
