// SPDX-License-Identifier: GPL-3.0-or-later
// areo instrument: register what is on the shelf.
#include <fmt/format.h>

#include <filesystem>
#include <memory>

#include "areo/entry/instrument_entry.hpp"
#include "areo/entry/noted.hpp"
#include "areo/wording/instrument.hpp"
#include "areo/wording/instrument_lines.hpp"
#include "command.hpp"
#include "failure.hpp"
#include "open_notebook.hpp"

namespace areo::cli {
namespace {

struct Options : entry::TypedInstrument {
  std::string kind = "hydrometer", on, note, reason, maker, serial;
};

notebook::InstrumentRecord record_of(const Options& o) {
  const bool refractometer = o.kind == "refractometer";
  for (const auto& [given, name] :
       {std::pair{o.compensated, "--atc"}, std::pair{o.also_gravity, "--gravity-scale"}})
    if (given && !refractometer)
      throw UsageError{fmt::format("{} belongs to a refractometer", name),
                       "add --kind refractometer, or leave it out"};
  if (o.kind == "hydrometer") return entry::hydrometer_record(o);
  for (const auto& [text, name] : {std::pair{o.glass, "--glass"},
                                   {o.meniscus, "--meniscus"},
                                   {o.stem, "--stem"},
                                   {o.mass, "--mass"},
                                   {o.spacing, "--spacing"},
                                   {o.made_for, "--made-for"}})
    if (!text.empty())
      throw UsageError{fmt::format("{} belongs to a hydrometer", name), "leave it out"};
  if (refractometer) return entry::refractometer_record(o);
  for (const auto& [text, name] : {std::pair{o.scale, "--scale"}, {o.tolerance, "--tolerance"}})
    if (!text.empty())
      throw UsageError{fmt::format("{} does not belong to a thermometer", name), "leave it out"};
  return entry::thermometer_record(o);
}

int run_add(const Options& o, const Session& session) {
  entry::require_name("an instrument", o.name, "stem-1");
  notebook::InstrumentRecord r = record_of(o);
  r.added_at = o.on.empty() ? now() : past_moment_from_text(o.on, now());
  r.note = o.note;
  r.maker = o.maker;
  r.serial = o.serial;
  open_notebook(session, notebook::Open::create).add(r);
  if (session.json) {
    raw_line(wording::instrument_json(r, {}));
    return done;
  }
  line(wording::listed_text(r));
  line("next: " + wording::first_check_text(r));
  return done;
}

int run_list(const Session& session) {
  std::error_code error;
  const std::string path = notebook_path(session);
  if (!path.ends_with('/') && std::filesystem::symlink_status(path, error).type() ==
                                  std::filesystem::file_type::not_found) {
    if (!session.json) line("no notebook yet; areo instrument add NAME makes one");
    return done;
  }
  const notebook::Notebook book = open_notebook(session, notebook::Open::read);
  for (const auto& r : book.instruments()) {
    const auto retired = book.retired(r.id);
    if (session.json)
      raw_line(wording::instrument_json(r, retired));
    else
      line(wording::listed_text(r, retired));
  }
  return done;
}

int run_show(const Options& o, const Session& session) {
  const notebook::Notebook book = open_notebook(session, notebook::Open::read);
  const auto r = book.instrument(o.name);
  if (session.json)
    raw_line(wording::instrument_json(r, book.retired(r.id)));
  else
    lines(wording::instrument_lines(book, r));
  return done;
}

int run_retire(const Options& o, const Session& session) {
  notebook::Notebook book = open_notebook(session);
  const auto r = book.instrument(o.name);
  // What was read on the day that it broke was read before it did.
  const notebook::Retirement retired{o.on.empty() ? now() : past_day_end_from_text(o.on, now()),
                                     o.reason};
  book.retire(r.id, retired.at, retired.reason);
  if (session.json) {
    raw_line(wording::instrument_json(r, retired));
    return done;
  }
  line(fmt::format("{}: {}", r.name(), wording::retired_text(retired)));
  line("next: what was read with it stays; areo instrument add NAME registers another one");
  return done;
}

}  // namespace

void setup_instrument(const Command& app, const Session& session, Run& run) {
  const auto o = std::make_shared<Options>();
  auto c =
      app.add_subcommand("instrument", "register hydrometers, refractometers and thermometers");
  c.require_subcommand(1);
  auto add = c.add_subcommand("add", "register an instrument");
  add.add_option("name", o->name, "a short name, e.g. stem-1").required();
  add.add_option("--kind", o->kind,
                 "hydrometer, refractometer or thermometer; hydrometer unless stated")
      .one_of({"hydrometer", "refractometer", "thermometer"});
  add.add_option("--scale", o->scale,
                 "SG20/20, SG60F, SG20/4, P, Bx, Be, Oe, kg/m3; SG20/20 unless stated. Of a "
                 "refractometer: Bx or nD; Bx unless stated");
  add.add_option("--from", o->from, "lower end of the scale").type_name("0.990");
  add.add_option("--to", o->to, "upper end of the scale").type_name("1.100");
  add.add_option("--division", o->division, "smallest division").type_name("0.002");
  add.add_option("--glass", o->glass, "cubic expansion of the glass in 1e-6/°C; 25 unless stated")
      .type_name("25");
  add.add_option("--meniscus", o->meniscus, "height of the meniscus on the scale, for --top")
      .type_name("0.002");
  const auto mass =
      add.add_option("--mass", o->mass, "mass of the hydrometer; 25 g unless stated").mass("25g");
  add.add_option("--spacing", o->spacing, "or the height of a division on its stem")
      .type_name("2.5mm")
      .excludes(mass);
  add.add_option("--stem", o->stem, "diameter of the stem; 5 mm unless stated").type_name("5mm");
  add.add_option("--made-for", o->made_for,
                 "surface tension that the scale was made for; that of water unless stated")
      .type_name("55mN/m");
  add.add_option("--maker", o->maker, "who made it");
  add.add_option("--serial", o->serial, "its serial number");
  add.add_flag("--atc", o->compensated, "a refractometer with temperature compensation");
  add.add_flag("--gravity-scale", o->also_gravity, "a refractometer with a gravity scale as well");
  add.add_option("--tolerance", o->tolerance,
                 "maximum permissible error; one division unless stated")
      .type_name("0.002");
  add.add_option("--on", o->on, "when you got it; now unless stated").date();
  add.add_option("--note", o->note, "anything worth knowing");
  add.footer(
      "Examples:\n  areo instrument add stem-1 --from 0.990 --to 1.100 --division 0.002\n"
      "  areo instrument add prism-1 --kind refractometer --from 0 --to 32 --division 0.2 --atc\n"
      "  areo instrument add probe-1 --kind thermometer --division 1C");
  add.callback([=, &session, &run] { run = [=, &session] { return run_add(*o, session); }; });
  auto list = c.add_subcommand("list", "all instruments");
  list.callback([=, &session, &run] { run = [&session] { return run_list(session); }; });
  auto show = c.add_subcommand("show", "one instrument");
  show.add_option("name", o->name, "its name").required();
  show.callback([=, &session, &run] { run = [=, &session] { return run_show(*o, session); }; });
  auto retire = c.add_subcommand("retire", "an instrument is no longer used; its readings stay");
  retire.add_option("name", o->name, "its name").required();
  retire.add_option("--reason", o->reason, "why: broke, lost").required().type_name("TEXT");
  retire.add_option("--on", o->on, "since when; now unless stated").date();
  retire.callback([=, &session, &run] { run = [=, &session] { return run_retire(*o, session); }; });
}

}  // namespace areo::cli
