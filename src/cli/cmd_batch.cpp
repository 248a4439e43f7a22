// SPDX-License-Identifier: GPL-3.0-or-later
// areo batch: what ferments, and what its readings say.
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <memory>
#include <tuple>

#include "areo/core/error.hpp"
#include "areo/core/shell_word.hpp"
#include "areo/measurement/extract_kind.hpp"
#include "areo/notebook/recompute.hpp"
#include "areo/text/format.hpp"
#include "areo/text/parse.hpp"
#include "areo/wording/batch.hpp"
#include "areo/wording/batch_history.hpp"
#include "areo/wording/correction_changes.hpp"
#include "areo/wording/reading.hpp"
#include "areo/wording/strength.hpp"
#include "command.hpp"
#include "extract_options.hpp"
#include "failure.hpp"
#include "insist.hpp"
#include "open_notebook.hpp"
#include "usage.hpp"

namespace areo::cli {
namespace {

using batch::Batch;
using batch::Point;
using notebook::BatchRecord;
using notebook::ReadingRecord;

struct Options {
  std::string name, drink, culture, vessel, volume, on, note, at, reason;
  entry::ExtractWords extract;
  bool interpolate = false, yes = false, all = false;
};

double volume_from_text(const std::string& text) {
  const double litres = text::litres_from_text(text);
  if (!(litres > 0)) throw ParseError{"a volume is above zero", text, 0, text.size()};
  return litres;
}

// The words are refused before they are written.
void check_extract(const entry::ExtractWords& o, const notebook::Notebook& book) {
  check_extract_options(o);
  (void)entry::extract_from_word(o.extract);
  if (!o.liquid.empty()) (void)notebook::liquid_factor(book, o.liquid);
}

int run_add(const Options& o, const Session& session) {
  if (o.name.empty()) throw Error{Errc::domain, "a batch needs a name", "e.g. PT-1"};
  if (o.name.starts_with('-'))
    throw Error{Errc::domain, "a name that begins with - would be taken for an option",
                "choose another one, e.g. PT-1"};
  notebook::Notebook book = open_notebook(session, notebook::Open::create);
  check_extract(o.extract, book);
  BatchRecord r;
  r.name = o.name;
  r.drink = o.drink;
  r.culture = wording::culture_from_text(o.culture);
  r.vessel = o.vessel;
  r.volume_typed = o.volume;
  if (!o.volume.empty()) r.volume_l = volume_from_text(o.volume);
  r.extract = o.extract.extract;
  r.liquid = o.extract.liquid;
  r.started_at = o.on.empty() ? now() : past_moment_from_text(o.on, now());
  r.note = o.note;
  if (!insisted(batch::doubts(r, now()), o.yes, session)) return said_no;
  r.id = book.add(r);
  if (session.json) {
    raw_line(wording::batch_json(book, r));
    return done;
  }
  line(wording::batch_text(r));
  line(
      fmt::format("next: its original gravity, before it ferments: areo reading add {} READING "
                  "--temp TEMP --original",
                  shell_word(r.name)));
  return done;
}

std::string state_text(const notebook::Notebook& book, const BatchRecord& r) {
  const auto events = book.events(r.id);
  const auto count = book.count_readings(r.id);
  std::string out = fmt::format("{} reading{}", count.count, count.count == 1 ? "" : "s");
  if (count.last) out += ", the last of " + count.last->date();
  if (!events.empty() && events.back().closed) out += "; closed " + events.back().at.date();
  return out;
}

int run_list(const Session& session) {
  const notebook::Notebook book = open_notebook(session, notebook::Open::read);
  const auto all = book.batches();
  if (all.empty() && !session.json) line("no batch yet; areo batch add NAME makes one");
  for (const BatchRecord& r : all)
    if (session.json)
      raw_line(wording::batch_json(book, r));
    else
      line(fmt::format("{}; {}", wording::batch_text(r), state_text(book, r)));
  return done;
}

// --- show ---

void print_rows(std::vector<std::vector<std::string>> rows) {
  if (rows.empty()) return;
  table(std::move(rows));
  line(fmt::format("  {}", wording::column_level));
}

std::string next_step(const Batch& batch, const notebook::Notebook& book) {
  const std::string& name = batch.record().name;
  const auto events = book.events(batch.record().id);
  if (!events.empty() && events.back().closed)
    return fmt::format("nothing; areo batch reopen {} if it goes on", shell_word(name));
  if (std::none_of(batch.samples().begin(), batch.samples().end(),
                   [](const auto& s) { return s.first().stage == notebook::Stage::original; }))
    return fmt::format("areo reading add {} READING --temp TEMP --original", shell_word(name));
  return fmt::format("areo reading add {} READING --temp TEMP", shell_word(name));
}

std::vector<const batch::Sample*> pointers(const std::vector<batch::Sample>& samples) {
  std::vector<const batch::Sample*> all;
  all.reserve(samples.size());
  for (const batch::Sample& s : samples) all.push_back(&s);
  return all;
}

// Of all samples, or of those that a list shows.
std::vector<Point> points_of(Batch& batch, bool all) {
  if (all) return batch.points();
  std::vector<Point> points;
  for (const std::size_t i : batch::listed(pointers(batch.samples())))
    points.push_back(batch.point(batch.samples()[i]));
  return points;
}

void print_json(Batch& batch, const notebook::Notebook& book) {
  raw_line(wording::batch_json(book, batch.record()));
  std::vector<Point> points = points_of(batch, false);
  (void)wording::note_corrections(batch, points);
  wording::each_point_json(batch, pointers(batch.samples()), points, raw_line);
  for (const auto& a : batch.additions()) raw_line(wording::addition_json(book, a));
  for (const ReadingRecord& r : batch.readings())
    if (!r.counts()) raw_line(wording::left_out_json(r));
}

int run_show(const Options& o, const Session& session) {
  const notebook::Notebook book = open_notebook(session, notebook::Open::read);
  const Moment as_of = o.at.empty() ? now() : past_day_end_from_text(o.at, now());
  using Between = notebook::InstrumentHistory::Between;
  Batch batch{book, o.name, as_of, o.interpolate ? Between::interpolated : Between::in_force};
  if (session.json) {
    print_json(batch, book);
    return done;
  }
  line(wording::batch_text(batch.record()));
  if (!o.at.empty())
    line(fmt::format("  as the notebook stood at the end of {}; corrections as they are known now",
                     as_of.date()));
  if (!batch.record().note.empty()) line("  note: " + batch.record().note);
  const auto bottles = batch.bottles();
  const bool several = bottles.size() > 1 || (bottles.size() == 1 && !bottles[0].empty());
  lines(wording::original_lines(batch, "", as_of, session.full));
  for (const std::string& bottle : bottles)
    if (!bottle.empty() && !batch.original(bottle, as_of).additions.empty())
      lines(wording::original_lines(batch, bottle, as_of, session.full));
  std::vector<Point> points = points_of(batch, o.all);
  (void)wording::note_corrections(batch, points);
  print_rows(wording::history_rows(batch, points, book, several, session.full));
  if (const std::string more = wording::not_shown_text(batch.samples().size(), points.size());
      !more.empty())
    line("  " + more);
  lines(wording::amendment_lines(book, batch.record(), as_of));
  notes(wording::notes_of(points));
  if (std::any_of(points.begin(), points.end(), [](const Point& p) { return p.drink.has_value(); }))
    line(wording::basis_line(wording::basis_text(batch.record().culture)));
  line("next: " + next_step(batch, book));
  return done;
}

// --- changes ---

int run_event(const Options& o, bool close, const Session& session) {
  notebook::Notebook book = open_notebook(session);
  const BatchRecord r = book.batch(o.name);
  const Moment at = o.on.empty() ? now() : past_moment_from_text(o.on, now());
  if (at < r.started_at)
    throw Error{Errc::inconsistent,
                fmt::format("{} was set on {} only", r.name, r.started_at.date()),
                "check the date"};
  book.note(r.id, {at, close, o.note});
  if (session.json)
    raw_line(wording::batch_json(book, r));
  else
    line(fmt::format("{} is {}", r.name, close ? "closed; its readings stay" : "open again"));
  return done;
}

int run_amend(const Options& o, const Session& session) {
  notebook::Notebook book = open_notebook(session);
  const notebook::Id id = book.batch(o.name).id;
  check_extract(o.extract, book);
  (void)wording::culture_from_text(o.culture);
  std::optional<double> litres;
  if (!o.volume.empty()) litres = volume_from_text(o.volume);
  BatchRecord changed = book.batch(id);
  changed.volume_typed = o.volume;
  changed.volume_l = litres;
  if (litres && !insisted(batch::doubts(changed, changed.started_at), o.yes, session))
    return said_no;
  const BatchRecord before = book.batch(id);
  bool any = false, news = false;
  for (const auto& [field, value, old] :
       {std::tuple{"drink", o.drink, before.drink},
        std::tuple{"culture", o.culture, std::string{notebook::word(before.culture)}},
        std::tuple{"vessel", o.vessel, before.vessel},
        std::tuple{"volume", o.volume, before.volume_typed},
        std::tuple{"extract", o.extract.extract, before.extract},
        std::tuple{"liquid", o.extract.liquid, before.liquid},
        std::tuple{"note", o.note, before.note}}) {
    if (value.empty()) continue;
    any = true;
    if (value == old) continue;
    news = true;
    const bool volume = field == std::string_view{"volume"};
    book.amend({id, now(), field, value, volume ? litres : std::nullopt, o.reason});
  }
  if (!any) throw UsageError{"nothing to amend", "say what is right: --volume 4.6L"};
  if (!news)
    throw Error{Errc::inconsistent, fmt::format("{} is so already", o.name),
                fmt::format("areo batch show {} shows it", shell_word(o.name))};
  const BatchRecord amended = book.batch(o.name);
  if (session.json)
    raw_line(wording::batch_json(book, amended));
  else
    line(wording::batch_text(amended));
  return done;
}

void add_fields(const Command& c, Options& o) {
  c.add_option("--drink", o.drink, "what it is, e.g. 'pear and thyme'").type_name("TEXT");
  c.add_option("--culture", o.culture, "what ferments: yeast, mixed or acetic; yeast unless stated")
      .type_name("WORD");
  c.add_option("--vessel", o.vessel, "what it is in").type_name("TEXT");
  c.add_option("--volume", o.volume, "how much; needed where something is added").type_name("5L");
  add_extract_options(c, o.extract);
  c.add_option("--note", o.note, "anything worth knowing");
}

}  // namespace

void setup_batch(const Command& app, const Session& session, Run& run) {
  const auto o = std::make_shared<Options>();
  auto c = app.add_subcommand("batch", "what ferments: note it, and see what its readings say");
  c.require_subcommand(1);
  const auto command = [&](const char* name, const char* what, const std::function<int()>& act) {
    auto sub = c.add_subcommand(name, what);
    sub.callback([act, &run] { run = act; });
    return sub;
  };
  const auto named = [&](Command sub) {
    sub.add_option("name", o->name, "the batch").required();
    return sub;
  };
  auto add = command("add", "a new batch", [=, &session] { return run_add(*o, session); });
  add.add_option("name", o->name, "a short name, e.g. PT-1").required();
  add_fields(add, *o);
  add.add_option("--on", o->on, "when it was set; now unless stated").type_name("DATE");
  add_insist_option(add, o->yes);
  command("list", "all batches", [&session] { return run_list(session); });
  auto show = named(command("show", "its readings and additions, and what they say",
                            [=, &session] { return run_show(*o, session); }));
  show.add_option("--at", o->at, "as the notebook stood on that day").type_name("DATE");
  show.add_flag("--interpolate", o->interpolate,
                "between two calibrations, on a straight line in time");
  show.add_flag("--all", o->all, "every reading; of more than 60 one a day is shown unless stated");
  for (const bool close : {true, false}) {
    auto sub = named(command(close ? "close" : "reopen",
                             close ? "it is finished; its readings stay" : "it goes on after all",
                             [=, &session] { return run_event(*o, close, session); }));
    sub.add_option("--on", o->on, "when; now unless stated").type_name("DATE");
    sub.add_option("--note", o->note, "anything worth knowing");
  }
  auto amend = named(command("amend", "a field that was noted wrongly; the old value stays too",
                             [=, &session] { return run_amend(*o, session); }));
  add_fields(amend, *o);
  amend.add_option("--reason", o->reason, "why").required();
  add_insist_option(amend, o->yes);
  c.footer(
      "Examples:\n  areo batch add PT-1 --drink 'pear and thyme' --culture mixed --volume 5L\n"
      "  areo batch show PT-1\n  areo batch amend PT-1 --volume 4.6L --reason 'measured again'");
}

}  // namespace areo::cli
