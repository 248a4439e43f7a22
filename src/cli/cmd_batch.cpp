// SPDX-License-Identifier: GPL-3.0-or-later
// areo batch: what ferments, and what its readings say.
#include <fmt/format.h>

#include <algorithm>
#include <memory>
#include <optional>

#include "areo/core/error.hpp"
#include "areo/core/shell_word.hpp"
#include "areo/entry/batch_entry.hpp"
#include "areo/entry/noted.hpp"
#include "areo/wording/batch.hpp"
#include "areo/wording/batch_history.hpp"
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

struct Options : entry::TypedBatch {
  std::string at, reason;
  bool interpolate = false, yes = false, all = false;
};

int run_add(const Options& o, const Session& session) {
  entry::require_name("a batch", o.name, "PT-1");
  check_extract_options(o.extract);
  notebook::Notebook book = open_notebook(session, notebook::Open::create);
  BatchRecord r = entry::batch_record(o, book);
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

int run_list(const Session& session) {
  const notebook::Notebook book = open_notebook(session, notebook::Open::read);
  const auto all = book.batches();
  if (all.empty() && !session.json) line("no batch yet; areo batch add NAME makes one");
  for (const BatchRecord& r : all)
    if (session.json)
      raw_line(wording::batch_json(book, r));
    else
      line(wording::listed_text(book, r));
  return done;
}

// --- show ---

void print_rows(std::vector<std::vector<std::string>> rows) {
  if (rows.empty()) return;
  table(std::move(rows));
  line(fmt::format("  {}", wording::column_level));
}

int run_show(const Options& o, const Session& session) {
  const notebook::Notebook book = open_notebook(session, notebook::Open::read);
  const Moment as_of = o.at.empty() ? now() : past_day_end_from_text(o.at, now());
  using Between = notebook::InstrumentHistory::Between;
  Batch batch{book, o.name, as_of, o.interpolate ? Between::interpolated : Between::in_force};
  if (session.json) {
    wording::each_batch_json(batch, book, raw_line);
    return done;
  }
  lines(wording::batch_lines(batch, o.at.empty() ? std::nullopt : std::optional{as_of},
                             session.full));
  const auto bottles = batch.bottles();
  const bool several = bottles.size() > 1 || (bottles.size() == 1 && !bottles[0].empty());
  const std::vector<Point> points = wording::shown_points(batch, o.all);
  print_rows(wording::history_rows(batch, points, book, several, session.full));
  if (const std::string more = wording::not_shown_text(batch.samples().size(), points.size());
      !more.empty())
    line("  " + more);
  lines(wording::amendment_lines(book, batch.record(), as_of));
  notes(wording::notes_of(points));
  if (std::any_of(points.begin(), points.end(), [](const Point& p) { return p.drink.has_value(); }))
    line(wording::basis_line(wording::basis_text(batch.record().culture)));
  line("next: " + wording::next_text(batch, book));
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
  check_extract_options(o.extract);
  const entry::AmendedBatch change = entry::amended_batch(o, o.reason, book);
  if (change.amendments.empty())
    throw UsageError{"nothing to amend", "say what is right: --volume 4.6L"};
  if (!o.volume.empty() &&
      !insisted(batch::doubts(change.record, change.record.started_at), o.yes, session))
    return said_no;
  for (const notebook::BatchAmendment& a : change.amendments) book.amend(a);
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
  c.add_option("--volume", o.volume, "how much; needed where something is added").volume("5L");
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
  add.add_option("--on", o->on, "when it was set; now unless stated").date();
  add_insist_option(add, o->yes);
  command("list", "all batches", [&session] { return run_list(session); });
  auto show = named(command("show", "its readings and additions, and what they say",
                            [=, &session] { return run_show(*o, session); }));
  show.add_option("--at", o->at, "as the notebook stood on that day").date();
  show.add_flag("--interpolate", o->interpolate,
                "between two calibrations, on a straight line in time");
  show.add_flag("--all", o->all, "every reading; of more than 60 one a day is shown unless stated");
  for (const bool close : {true, false}) {
    auto sub = named(command(close ? "close" : "reopen",
                             close ? "it is finished; its readings stay" : "it goes on after all",
                             [=, &session] { return run_event(*o, close, session); }));
    sub.add_option("--on", o->on, "when; now unless stated").date();
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
