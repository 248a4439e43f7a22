// areo liquid: samples read with a refractometer and a hydrometer before they ferment, and what
// they say of the extract.
#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <memory>
#include <tuple>

#include "areo/batch/expectation.hpp"
#include "areo/core/error.hpp"
#include "areo/core/shell_word.hpp"
#include "areo/entry/noted.hpp"
#include "areo/entry/reading_resolver.hpp"
#include "areo/notebook/recompute.hpp"
#include "areo/text/format.hpp"
#include "areo/text/json.hpp"
#include "areo/text/parse.hpp"
#include "areo/wording/instrument.hpp"
#include "command.hpp"
#include "failure.hpp"
#include "insist.hpp"
#include "open_notebook.hpp"
#include "reading_options.hpp"
#include "usage.hpp"

namespace areo::cli {
namespace {

using notebook::InstrumentRecord;
using notebook::LiquidPairRecord;

struct Options {
  std::string liquid, refraction, gravity, temperature, gravity_temperature;
  std::string refractometer, hydrometer, thermometer, temperature_accuracy, on, note;
  bool top = false, yes = false;
  notebook::Id pair = 0;
  std::string reason;
};

notebook::PairHalf half_of(const std::string& typed, const InstrumentRecord& instrument,
                           const std::string& temperature) {
  const entry::NotedMark m = entry::noted_mark(typed, instrument);
  notebook::PairHalf half{instrument.id, typed, m.value, m.half_width, temperature, {}};
  if (!temperature.empty()) half.temperature_c = text::liquid_celsius_from_text(temperature);
  return half;
}

LiquidPairRecord record_of(const Options& o, const notebook::Notebook& book) {
  LiquidPairRecord r;
  r.liquid = o.liquid;
  r.made_at = o.on.empty() ? now() : past_moment_from_text(o.on, now());
  r.note = o.note;
  const InstrumentRecord prism = entry::of_kind(book, o.refractometer, "refractometer");
  const InstrumentRecord stem = entry::of_kind(book, o.hydrometer, "hydrometer");
  r.refraction = half_of(o.refraction, prism, o.temperature);
  r.gravity = half_of(o.gravity, stem,
                      o.gravity_temperature.empty() ? o.temperature : o.gravity_temperature);
  r.meniscus = o.top ? instruments::Meniscus::top : instruments::Meniscus::level;
  // Both temperatures come from one thermometer; either stands for its accuracy.
  const entry::NotedTemperature t =
      entry::noted_temperature(o.temperature.empty() ? o.gravity_temperature : o.temperature,
                               o.thermometer, o.temperature_accuracy, true, book);
  r.thermometer = t.thermometer;
  r.temperature_half_width_c = t.half_width_c;
  return r;
}

std::string factor_text(const uncertainty::Value& v) { return text::value_text(v, ""); }

uncertainty::Value combined(const calibration::LiquidFactor& f) {
  return {f.optics.relative_rise, f.optics.uncertainty};
}

std::string factor_json(const std::string& liquid, const calibration::LiquidFactor& f) {
  return fmt::format(
      R"({{"liquid":{},"refraction_relative_to_sucrose":{},"standard_uncertainty":{},)"
      R"("pairs":{},"chi_squared":{},"consistent":{},"notes":{}}})",
      text::json_string(liquid), f.optics.relative_rise, f.optics.uncertainty, f.each.size(),
      f.chi_squared, f.consistent, text::json_list(f.remarks));
}

void print_factor(const std::string& liquid, const calibration::LiquidFactor& f) {
  line(
      fmt::format("{}: its extract refracts {} times as much as sugar of the same density  (about "
                  "95 %)",
                  liquid, factor_text(combined(f))));
  if (f.chi_squared_limit)
    line(fmt::format("  the pairs {}: chi-squared {:.1f}, limit {:.1f} at 95 %{}",
                     f.consistent ? "agree" : "DIFFER", f.chi_squared, *f.chi_squared_limit,
                     f.consistent ? ""
                                  : "; the range is widened to their scatter (areo liquid "
                                    "leave-out drops a wrong one)"));
  notes(f.remarks);
}

batch::Doubts twice(const notebook::Notebook& book, const LiquidPairRecord& r) {
  const auto of = [](const notebook::PairHalf& h) {
    return std::tie(h.instrument, h.reading, h.temperature_c);
  };
  for (const LiquidPairRecord& there : book.liquid_pairs(r.liquid))
    if (of(there.refraction) == of(r.refraction) && of(there.gravity) == of(r.gravity) &&
        there.note == r.note &&
        std::abs(there.made_at.seconds - r.made_at.seconds) <= batch::typed_twice_s)
      return {fmt::format("{} and {} are pair {} already: typed twice?", r.refraction.typed,
                          r.gravity.typed, there.id)};
  return {};
}

int run_pair(const Options& o, const Session& session) {
  notebook::Notebook book = open_notebook(session);
  LiquidPairRecord r = record_of(o, book);
  // Evaluated before it is written: an impossible pair is refused whole.
  const auto alone = liquid_factor(book, std::span{&r, 1});
  if (!insisted(twice(book, r), o.yes, session)) return said_no;
  r.id = book.add(r);
  const auto all = notebook::liquid_factor(book, o.liquid);
  if (session.json) {
    raw_line(factor_json(o.liquid, all));
    return done;
  }
  line(fmt::format("this pair alone: {} times as much as sugar", factor_text(combined(alone))));
  print_factor(o.liquid, all);
  line(fmt::format("noted as pair {} of {}", r.id, r.made_at.date()));
  line(
      fmt::format("next: another sample, or areo refract READING --temp TEMP --instrument {} "
                  "--liquid {}",
                  shell_word(o.refractometer), shell_word(o.liquid)));
  return done;
}

// Nothing if all pairs are left out: then there are pairs, and no factor.
std::optional<calibration::LiquidFactor> factor_of(const notebook::Notebook& book,
                                                   const std::string& liquid) {
  const auto pairs = book.liquid_pairs(liquid);
  if (!pairs.empty() && std::all_of(pairs.begin(), pairs.end(),
                                    [](const LiquidPairRecord& p) { return !p.left_out.empty(); }))
    return std::nullopt;
  return notebook::liquid_factor(book, liquid);
}

void tell_factor(const std::string& liquid, const std::optional<calibration::LiquidFactor>& f,
                 const Session& session) {
  if (session.json)
    raw_line(f ? factor_json(liquid, *f)
               : fmt::format(R"({{"liquid":{},"pairs":0}})", text::json_string(liquid)));
  else if (f)
    print_factor(liquid, *f);
  else
    line(liquid + ": no factor, all of its pairs are left out");
}

int run_show(const Options& o, const Session& session) {
  const notebook::Notebook book = open_notebook(session, notebook::Open::read);
  const auto f = factor_of(book, o.liquid);
  tell_factor(o.liquid, f, session);
  if (session.json) return done;
  std::size_t counted = 0;
  for (const LiquidPairRecord& p : book.liquid_pairs(o.liquid)) {
    const auto prism = book.instrument(p.refraction.instrument);
    const auto stem = book.instrument(p.gravity.instrument);
    line(fmt::format(
        "  pair {} of {}: {} shows {}, {} shows {}: {}", p.id, p.made_at.date(), prism.name(),
        wording::shown(prism, p.refraction.reading), stem.name(),
        wording::shown(stem, p.gravity.reading),
        p.left_out.empty() && f ? factor_text(f->each[counted++]) : "left out, " + p.left_out));
  }
  return done;
}

int run_leave_out(const Options& o, const Session& session) {
  notebook::Notebook book = open_notebook(session);
  book.leave_out(o.liquid, o.pair, now(), o.reason);
  const auto pairs = book.liquid_pairs(o.liquid);
  if (std::any_of(pairs.begin(), pairs.end(), [](const auto& p) { return p.left_out.empty(); }))
    return run_show(o, session);
  if (session.json)
    raw_line(fmt::format(R"({{"liquid":{},"pairs":0}})", text::json_string(o.liquid)));
  else
    line(fmt::format("pair {} is left out, and no pair of {} counts any more", o.pair, o.liquid));
  return done;
}

int run_list(const Session& session) {
  const notebook::Notebook book = open_notebook(session, notebook::Open::read);
  const auto liquids = book.liquids();
  if (liquids.empty() && !session.json)
    line("no liquid yet; areo liquid pair notes what both instruments show in one");
  for (const std::string& name : liquids) tell_factor(name, factor_of(book, name), session);
  return done;
}

}  // namespace

void setup_liquid(const Command& app, const Session& session, Run& run) {
  const auto o = std::make_shared<Options>();
  auto c = app.add_subcommand("liquid", "how strongly a juice or wort refracts, from pairs");
  c.require_subcommand(1);
  auto pair = c.add_subcommand("pair", "an unfermented sample, read with both instruments");
  pair.add_option("name", o->liquid, "the liquid, e.g. pear-juice").required();
  pair.add_option("refraction", o->refraction, "what the refractometer shows").required();
  pair.add_option("gravity", o->gravity, "what the hydrometer shows").required();
  pair.add_option("--temp", o->temperature, "temperature of both").type_name("TEMP");
  pair.add_option("--gravity-temp", o->gravity_temperature, "of the hydrometer's sample, if other")
      .type_name("TEMP");
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
  pair.add_option("--on", o->on, "when it was read; now unless stated").type_name("DATE");
  pair.add_option("--note", o->note, "anything worth knowing");
  add_insist_option(pair, o->yes);
  pair.footer(
      "Example:\n  areo liquid pair pear-juice 12.6Bx 1.050 --temp 20C --instrument prism-1 "
      "--hydrometer stem-1");
  pair.callback([=, &session, &run] {
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
  auto out = c.add_subcommand("leave-out", "a pair that does not count any more");
  out.add_option("name", o->liquid, "the liquid").required();
  out.add_option("pair", o->pair, "its number").required();
  out.add_option("--reason", o->reason, "why").required();
  out.callback([=, &session, &run] { run = [=, &session] { return run_leave_out(*o, session); }; });
  auto list = c.add_subcommand("list", "all liquids");
  list.callback([=, &session, &run] { run = [&session] { return run_list(session); }; });
}

}  // namespace areo::cli
