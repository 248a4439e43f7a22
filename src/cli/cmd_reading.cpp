// SPDX-License-Identifier: GPL-3.0-or-later
// areo reading: note what was read of a batch, put right what was noted wrongly.
#include <fmt/format.h>

#include <memory>
#include <optional>

#include "areo/core/shell_word.hpp"
#include "areo/entry/reading_entry.hpp"
#include "areo/entry/reading_resolver.hpp"
#include "areo/wording/batch.hpp"
#include "areo/wording/batch_history.hpp"
#include "areo/wording/correction_changes.hpp"
#include "areo/wording/reading.hpp"
#include "command.hpp"
#include "failure.hpp"
#include "insist.hpp"
#include "open_notebook.hpp"
#include "reading_options.hpp"
#include "usage.hpp"

namespace areo::cli {
namespace {

using batch::Batch;
using batch::Point;
using notebook::Id;
using notebook::ReadingRecord;

struct Options {
  std::string batch, reason;
  entry::TypedReading typed;
  Id id = 0;
  bool yes = false;
};

void check_options(Options& o) {
  entry::ReadingOptions with;
  o.typed = entry::parted(o.typed);
  with.thermometer = o.typed.thermometer;
  with.temperature_accuracy = o.typed.temperature_accuracy;
  check_temperature_options(with, !o.typed.temperature.empty(), "--temp");
}

// What a reading says, and what to do next.
int tell(const notebook::Notebook& book, const std::string& name, Id reading,
         const std::vector<std::string>& echo, const Session& session) {
  Batch batch{book, name};
  std::vector<Point> points{batch.point(wording::sample_with(batch, reading))};
  (void)wording::note_corrections(batch, points);
  const Point& point = points.front();
  if (session.json) {
    raw_line(wording::point_json(batch, point));
    return done;
  }
  lines(wording::new_reading_lines(batch, point, echo, session.full));
  return done;
}

// @param amended  the reading that it takes the place of
bool expected(const notebook::Notebook& book, const std::string& name,
              const entry::NotedReading& noted, std::optional<Id> amended, bool yes,
              const Session& session) {
  Batch batch{book, name};
  return insisted(batch::Expectation{batch, amended}.of(noted.records), yes, session);
}

int run_add(const Options& o, const Session& session) {
  notebook::Notebook book = open_notebook(session);
  const auto batch = book.batch(o.batch);
  const entry::NotedReading noted = entry::note_reading(o.typed, batch, book);
  if (!expected(book, batch.name, noted, std::nullopt, o.yes, session)) return said_no;
  const Id first = book.add(noted.records).front();
  return tell(book, o.batch, first, noted.echo, session);
}

int run_amend(const Options& o, const Session& session) {
  notebook::Notebook book = open_notebook(session);
  const ReadingRecord before = book.reading(o.id);
  const std::string batch = book.batch(before.batch).name;
  const entry::NotedReading noted = entry::amended_reading(o.typed, before, o.reason, book);
  if (!expected(book, batch, noted, before.id, o.yes, session)) return said_no;
  const Id id = book.add(noted.records).front();
  return tell(book, batch, id, noted.echo, session);
}

int run_exclude(const Options& o, bool exclude, const Session& session) {
  notebook::Notebook book = open_notebook(session);
  book.exclude_reading(o.id, {now(), exclude, o.reason});
  const ReadingRecord r = book.reading(o.id);
  if (session.json)
    raw_line(wording::excluded_json("reading", r.id, exclude ? o.reason : ""));
  else
    line(fmt::format(
        "reading {} of {} {}", r.id, book.batch(r.batch).name,
        exclude ? "is excluded and stays in the notebook: " + o.reason : "counts again"));
  return done;
}

// The trail: every reading as typed, with all that happened to it.
int run_list(const Options& o, const Session& session) {
  const notebook::Notebook book = open_notebook(session, notebook::Open::read);
  const auto batch = book.batch(o.batch);
  const auto readings = book.readings(batch.id);
  if (readings.empty() && !session.json)
    line(fmt::format(
        "{} has no readings yet; note one with: areo reading add {} READING --temp TEMP",
        batch.name, shell_word(batch.name)));
  for (const ReadingRecord& r : readings) {
    const std::string instrument = book.instrument(r.instrument).name();
    if (session.json)
      raw_line(wording::reading_json(r, instrument));
    else
      lines(wording::reading_lines(r, instrument, session.full));
  }
  return done;
}

void add_options(const Command& c, entry::TypedReading& t) {
  c.add_option("--temp", t.temperature, "temperature of the sample").temperature();
  c.add_option("--instrument", t.instrument,
               "what showed it; the hydrometer, if the notebook has only one")
      .type_name("NAME");
  c.add_option("--thermometer", t.thermometer, "thermometer in the notebook").type_name("NAME");
  c.add_option("--temp-accuracy", t.temperature_accuracy, "±; 0.5C unless stated")
      .type_name("0.2C");
  c.add_option("--bottle", t.bottle, "of which bottle; the batch as a whole unless stated")
      .type_name("NAME");
  c.add_flag("--original", t.original, "an original gravity: before it ferments");
  c.add_flag("--top", t.top, "read at the top of the meniscus");
  c.add_option("--degassed", t.degassed, "were the bubbles stirred out: yes or no")
      .type_name("WORD");
  c.add_option("--on", t.made_at, "when it was read; now unless stated").date();
  c.add_option("--by", t.person, "who read it").type_name("NAME");
  c.add_option("--note", t.note, "anything worth knowing");
}

}  // namespace

void setup_reading(const Command& app, const Session& session, Run& run) {
  const auto o = std::make_shared<Options>();
  auto c = app.add_subcommand("reading", "note what was read of a batch");
  c.require_subcommand(1);
  auto add = c.add_subcommand("add", "a reading, or repeats of one sample");
  add.add_option("batch", o->batch, "the batch").required();
  add.add_option("readings", o->typed.shown, "what the instrument shows; several are repeats")
      .required()
      .expected(1, 200)
      .type_name("READING ... [TEMP]");
  add_options(add, o->typed);
  add_insist_option(add, o->yes);
  add.callback([=, &session, &run] {
    check_options(*o);
    run = [=, &session] { return run_add(*o, session); };
  });
  auto list = c.add_subcommand("list", "every reading of a batch as typed, with its history");
  list.add_option("batch", o->batch, "the batch").required();
  list.callback([=, &session, &run] { run = [=, &session] { return run_list(*o, session); }; });
  auto amend = c.add_subcommand("amend", "a reading that was noted wrongly; the old one stays");
  amend.add_option("number", o->id, "its number").required();
  amend.add_option("reading", o->typed.shown, "what the instrument really showed")
      .expected(0, entry::most_words)
      .type_name("READING [TEMP]");
  add_options(amend, o->typed);
  add_insist_option(amend, o->yes);
  amend.add_option("--reason", o->reason, "why").required();
  amend.callback([=, &session, &run] {
    o->typed = entry::parted(o->typed);
    if (o->typed.shown.size() > 1)
      throw UsageError{"an amendment is of one reading", "amend them one after the other"};
    run = [=, &session] { return run_amend(*o, session); };
  });
  for (const bool exclude : {true, false}) {
    auto sub = c.add_subcommand(
        exclude ? "exclude" : "include",
        exclude ? "a reading that no longer counts" : "an excluded reading that counts again");
    sub.add_option("number", o->id, "its number").required();
    sub.add_option("--reason", o->reason, "why").required();
    sub.callback(
        [=, &session, &run] { run = [=, &session] { return run_exclude(*o, exclude, session); }; });
  }
  c.footer(
      "Examples:\n  areo reading add PT-1 1.048 21C --original\n"
      "  areo reading add PT-1 1.030 1.031 1.030 19C --bottle B --degassed yes\n"
      "  areo reading amend 7 1.048 --reason 'slipped digit'\n"
      "  areo reading exclude 9 --reason 'full of bubbles'");
}

}  // namespace areo::cli
