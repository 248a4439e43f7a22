// SPDX-License-Identifier: GPL-3.0-or-later
// areo addition: what went into a batch after it was set.
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <memory>

#include "areo/core/error.hpp"
#include "areo/core/shell_word.hpp"
#include "areo/entry/addition_entry.hpp"
#include "areo/text/format.hpp"
#include "areo/text/parse.hpp"
#include "areo/wording/batch.hpp"
#include "areo/wording/reading.hpp"
#include "command.hpp"
#include "failure.hpp"
#include "insist.hpp"
#include "open_notebook.hpp"
#include "usage.hpp"

namespace areo::cli {
namespace {

using notebook::AdditionRecord;
using notebook::Substance;

struct Options : entry::TypedAddition {
  std::vector<std::string> words;  // of the amount: 4 oz
  std::string reason;
  notebook::Id id = 0;
  bool yes = false;
};

int run_add(const Options& o, const Session& session) {
  notebook::Notebook book = open_notebook(session);
  const auto batch = book.batch(o.batch);
  AdditionRecord r = entry::addition_record(o, book);
  batch::Batch before{book, o.batch};
  if (!insisted(doubts(before, r), o.yes, session)) return said_no;
  r.id = book.add(r);
  if (session.json) {
    raw_line(wording::addition_json(book, r));
    return done;
  }
  line(fmt::format("{}: {}  (addition {})", batch.name, wording::addition_text(book, r), r.id));
  batch::Batch whole{book, o.batch};
  try {
    const auto original = whole.original(o.bottle, r.made_at);
    if (original.readings.empty())
      line("  no original gravity yet: note one with areo reading add ... --original");
    else
      line(fmt::format(
          "  original gravity, as if it had been there from the start: {}",
          text::value_text(original_gravity(original).at("sg_20_20_original").value, "")));
  } catch (const Error& e) {
    line(fmt::format("  noted, but no original gravity follows: {}", e.what()));
  }
  line("next: stir, wait until it is dissolved, and read again");
  return done;
}

int run_exclude(const Options& o, bool exclude, const Session& session) {
  notebook::Notebook book = open_notebook(session);
  book.exclude_addition(o.id, {now(), exclude, o.reason});
  if (session.json)
    raw_line(wording::excluded_json("addition", o.id, exclude ? o.reason : ""));
  else
    line(fmt::format(
        "addition {} {}", o.id,
        exclude ? "is excluded and stays in the notebook: " + o.reason : "counts again"));
  return done;
}

}  // namespace

void setup_addition(const Command& app, const Session& session, Run& run) {
  const auto o = std::make_shared<Options>();
  auto c = app.add_subcommand("addition", "note what went into a batch later");
  c.require_subcommand(1);
  auto add = c.add_subcommand("add", "something went in; the original gravity follows it");
  add.require_subcommand(1);
  struct Kind {
    Substance what;
    const char *name, *help;
  };
  for (const Kind& k : {Kind{Substance::sugar, "sugar", "white sugar, weighed"},
                        Kind{Substance::juice, "juice", "a sweet liquid of known extract"},
                        Kind{Substance::water, "water", "water"},
                        Kind{Substance::salt, "salt", "salt: does not ferment"},
                        Kind{Substance::acid, "acid", "an acid: does not ferment"},
                        Kind{Substance::batch, "part", "part of another batch"}}) {
    auto sub = add.add_subcommand(k.name, k.help);
    sub.add_option("batch", o->batch, "the batch that it went into").required();
    const bool alone = k.what != Substance::juice && k.what != Substance::batch;
    if (alone)
      sub.add_option("amount", o->words, "how much: 100g, 4 oz, 0.5L").required().expected(1, 5);
    else
      sub.add_option("amount", o->amount, "how much: 100g, 0.5L").required();
    if (k.what == Substance::juice)
      sub.add_option("extract", o->extract, "what is in it: 12.5Bx, 1.050").required();
    if (k.what == Substance::batch)
      sub.add_option("other", o->other, "the batch that it came from").required();
    sub.add_option("--into", o->into, "how much was there; the batch's volume unless stated")
        .volume("4.6L");
    sub.add_option("--bottle", o->bottle, "into which bottle").type_name("NAME");
    sub.add_option("--on", o->on, "when; now unless stated").date();
    sub.add_option("--by", o->person, "who did it").type_name("NAME");
    sub.add_option("--note", o->note, "anything worth knowing");
    add_insist_option(sub, o->yes);
    sub.callback([=, &session, &run] {
      o->what = k.what;
      if (alone) o->amount = fmt::format("{}", fmt::join(o->words, " "));
      run = [=, &session] { return run_add(*o, session); };
    });
  }
  for (const bool exclude : {true, false}) {
    auto sub = c.add_subcommand(
        exclude ? "exclude" : "include",
        exclude ? "an addition that was noted wrongly" : "an excluded addition that counts again");
    sub.add_option("number", o->id, "its number").required();
    sub.add_option("--reason", o->reason, "why").required();
    sub.callback(
        [=, &session, &run] { run = [=, &session] { return run_exclude(*o, exclude, session); }; });
  }
  c.footer(
      "Examples:\n  areo addition add sugar PT-1 100g\n"
      "  areo addition add juice PT-1 0.5L 12.5Bx\n"
      "  areo addition add part PT-1 1L PT-2\n"
      "  areo addition add sugar PT-1 4g --bottle B --into 0.75L\n"
      "  areo addition exclude 2 --reason 'into the other jar'");
}

}  // namespace areo::cli
