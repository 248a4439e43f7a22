// SPDX-License-Identifier: GPL-3.0-or-later
// areo liquid: samples read with a refractometer and a hydrometer before they ferment, and what
// they say of the extract.
#include <fmt/format.h>

#include <algorithm>
#include <memory>
#include <optional>
#include <span>

#include "areo/core/shell_word.hpp"
#include "areo/entry/pair_entry.hpp"
#include "areo/entry/reading_resolver.hpp"
#include "areo/notebook/recompute.hpp"
#include "areo/wording/liquid.hpp"
#include "areo/wording/liquid_pairs.hpp"
#include "command.hpp"
#include "failure.hpp"
#include "insist.hpp"
#include "open_notebook.hpp"
#include "reading_options.hpp"
#include "usage.hpp"

namespace areo::cli {
namespace {

using notebook::LiquidPairRecord;

struct Options : entry::TypedPair {
  std::vector<std::string> words;
  bool yes = false;
  notebook::Id pair = 0;
  std::string reason;
};

int run_pair(const Options& o, const Session& session) {
  notebook::Notebook book = open_notebook(session);
  LiquidPairRecord r = entry::pair_record(o, book);
  // Evaluated before it is written: an impossible pair is refused whole.
  const auto alone = liquid_factor(book, std::span{&r, 1});
  if (!insisted(entry::doubts_about(r, book), o.yes, session)) return said_no;
  r.id = book.add(r);
  const auto all = notebook::liquid_factor(book, o.liquid);
  if (session.json) {
    raw_line(wording::factor_json(o.liquid, all));
    return done;
  }
  line(fmt::format("this pair alone: {} times as much as sugar", wording::factor_text(alone)));
  lines(wording::factor_lines(o.liquid, all));
  line(fmt::format("noted as pair {} of {}", r.id, r.made_at.date()));
  line(
      fmt::format("next: another sample, or areo refract READING --temp TEMP --instrument {} "
                  "--liquid {}",
                  shell_word(o.refractometer), shell_word(o.liquid)));
  return done;
}

void tell_factor(const std::string& liquid, const std::optional<calibration::LiquidFactor>& f,
                 const Session& session) {
  if (session.json)
    raw_line(wording::factor_json(liquid, f));
  else
    lines(wording::known_factor_lines(liquid, f));
}

int run_show(const Options& o, const Session& session) {
  const notebook::Notebook book = open_notebook(session, notebook::Open::read);
  const auto f = wording::factor_of(book, o.liquid);
  tell_factor(o.liquid, f, session);
  if (!session.json) lines(wording::pair_lines(book, o.liquid, f));
  return done;
}

int run_leave_out(const Options& o, const Session& session) {
  notebook::Notebook book = open_notebook(session);
  book.leave_out(o.liquid, o.pair, now(), o.reason);
  const auto pairs = book.liquid_pairs(o.liquid);
  if (std::any_of(pairs.begin(), pairs.end(), [](const auto& p) { return p.left_out.empty(); }))
    return run_show(o, session);
  if (session.json)
    raw_line(wording::factor_json(o.liquid, std::nullopt));
  else
    line(fmt::format("pair {} is left out, and no pair of {} counts any more", o.pair, o.liquid));
  return done;
}

int run_list(const Session& session) {
  const notebook::Notebook book = open_notebook(session, notebook::Open::read);
  const auto liquids = book.liquids();
  if (liquids.empty() && !session.json)
    line("no liquid yet; areo liquid pair notes what both instruments show in one");
  for (const std::string& name : liquids)
    tell_factor(name, wording::factor_of(book, name), session);
  return done;
}

}  // namespace

void setup_liquid(const Command& app, const Session& session, Run& run) {
  const auto o = std::make_shared<Options>();
  auto c = app.add_subcommand("liquid", "how strongly a juice or wort refracts, from pairs");
  c.require_subcommand(1);
  auto pair = c.add_subcommand("pair", "an unfermented sample, read with both instruments");
  pair.add_option("name", o->liquid, "the liquid, e.g. pear-juice").required();
  pair.add_option("readings", o->words, "what refractometer and hydrometer show")
      .required()
      .expected(2, 2 * entry::most_words)
      .type_name("12.6Bx 1.050 [20C]");
  pair.add_option("--temp", o->temperature, "temperature of both").temperature();
  pair.add_option("--gravity-temp", o->gravity_temperature, "of the hydrometer's sample, if other")
      .temperature();
  pair.add_option("--instrument", o->refractometer, "refractometer in the notebook")
      .required()
      .type_name("NAME");
  pair.add_option("--hydrometer", o->hydrometer, "hydrometer in the notebook")
      .required()
      .type_name("NAME");
  pair.add_option("--thermometer", o->thermometer, "thermometer in the notebook").type_name("NAME");
  pair.add_option("--temp-accuracy", o->temperature_accuracy, "±; 0.5C unless stated")
      .type_name("0.2C");
  pair.add_flag("--top", o->top, "hydrometer read at the top of the meniscus");
  pair.add_option("--on", o->on, "when it was read; now unless stated").date();
  pair.add_option("--note", o->note, "anything worth knowing");
  add_insist_option(pair, o->yes);
  pair.footer(
      "Example:\n  areo liquid pair pear-juice 12.6Bx 1.050 20C --instrument prism-1 "
      "--hydrometer stem-1");
  pair.callback([=, &session, &run] {
    session.usual->take_pair(o->words, *o);
    entry::ReadingOptions with;
    with.thermometer = o->thermometer;
    with.temperature_accuracy = o->temperature_accuracy;
    check_temperature_options(with, !o->temperature.empty() || !o->gravity_temperature.empty(),
                              "--temp");
    run = [=, &session] { return run_pair(*o, session); };
  });
  auto show = c.add_subcommand("show", "its factor and its pairs");
  show.add_option("name", o->liquid, "the liquid").required();
  show.callback([=, &session, &run] { run = [=, &session] { return run_show(*o, session); }; });
  auto out = c.add_subcommand("leave-out", "a pair that no longer counts");
  out.add_option("name", o->liquid, "the liquid").required();
  out.add_option("pair", o->pair, "its number").required();
  out.add_option("--reason", o->reason, "why").required();
  out.callback([=, &session, &run] { run = [=, &session] { return run_leave_out(*o, session); }; });
  auto list = c.add_subcommand("list", "all liquids");
  list.callback([=, &session, &run] { run = [&session] { return run_list(session); }; });
}

}  // namespace areo::cli
