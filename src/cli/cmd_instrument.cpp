// SPDX-License-Identifier: GPL-3.0-or-later
// areo instrument: register what is on the shelf.
#include <fmt/format.h>

#include <filesystem>
#include <memory>

#include "areo/core/error.hpp"
#include "areo/core/shell_word.hpp"
#include "areo/entry/instrument_entry.hpp"
#include "areo/notebook/recompute.hpp"
#include "areo/physics/scale_name.hpp"
#include "areo/physics/water.hpp"
#include "areo/text/format.hpp"
#include "areo/text/parse.hpp"
#include "areo/text/parse_refraction.hpp"
#include "areo/wording/instrument.hpp"
#include "command.hpp"
#include "failure.hpp"
#include "open_notebook.hpp"

namespace areo::cli {
namespace {

struct Options : entry::TypedInstrument {
  std::string kind = "hydrometer", on, note, reason, maker, serial;
};

using Retired = std::optional<notebook::Retirement>;

std::string retired_text(const notebook::Retirement& r) {
  return fmt::format("retired on {}: {}", r.at.date(), r.reason);
}

std::string counted(std::size_t n, const char* what) {
  return fmt::format("{} {}{}", n, what, n == 1 ? "" : "s");
}

// What an instrument without error shows in water at 20 °C: not 1.000 on every hydrometer.
std::string in_water(const notebook::InstrumentRecord& r) {
  const Temperature t = celsius_point(20);
  const auto* h = r.hydrometer();
  const double shown =
      h != nullptr ? instruments::usual_indication(*h, physics::water_density(t), t)
                   : instruments::ideal_indication(*r.refractometer(), physics::Liquid{}, t);
  const std::string unit = wording::unit_of(r);
  return text::fixed(shown, text::supported_decimals(r.graduation().division / 10)) +
         (unit.empty() ? "" : " " + unit);
}

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
  if (o.name.empty()) throw Error{Errc::domain, "an instrument needs a name", "e.g. stem-1"};
  if (o.name.starts_with('-'))
    throw Error{Errc::domain, "a name that begins with - would be taken for an option",
                "choose another one, e.g. stem-1"};
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
  line(fmt::format("{}: {}", r.name(), wording::instrument_text(r)));
  if (r.thermometer() == nullptr)
    line(
        fmt::format("next: in clean water at 20 °C it should show {}; "
                    "areo calibrate water {} READING TEMP",
                    in_water(r), shell_word(r.name())));
  else
    line(fmt::format("next: in melting ice it should show 0 °C; areo calibrate ice {} READING",
                     shell_word(r.name())));
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
    const Retired retired = book.retired(r.id);
    if (session.json)
      raw_line(wording::instrument_json(r, retired));
    else
      line(fmt::format("{}: {}{}", r.name(), wording::instrument_text(r),
                       retired ? "; " + retired_text(*retired) : ""));
  }
  return done;
}

// "stem 5 mm (usual), mass 25 g (usual), scale made for 72.7 mN/m (stated)"
std::string stem_text(const instruments::Hydrometer& h) {
  const instruments::Stem s = instruments::stem_of(h);
  const auto how = [](const std::optional<double>& stated) {
    return stated ? "stated" : "taken as usual";
  };
  return fmt::format("stem {:.3g} mm ({}), mass {:.3g} g ({}), scale made for {:.3g} mN/m ({})",
                     s.diameter_mm.value, how(h.stem_diameter_mm), s.mass_g.value, how(h.mass_g),
                     s.made_for_mn_m.value, how(h.made_for_mn_m));
}

int run_show(const Options& o, const Session& session) {
  const notebook::Notebook book = open_notebook(session, notebook::Open::read);
  const auto r = book.instrument(o.name);
  if (session.json) {
    raw_line(wording::instrument_json(r, book.retired(r.id)));
    return done;
  }
  line(fmt::format("{}: {}", r.name(), wording::instrument_text(r)));
  if (const auto* h = r.hydrometer()) {
    line(fmt::format("  glass expansion {:g}e-6 per °C, maximum permissible error {:g}",
                     h->glass_expansion_per_c * 1e6, h->maximum_permissible_error()));
    line("  " + stem_text(*h));
  }
  if (r.thermometer() == nullptr)
    line(fmt::format("  without error it shows {} in water at 20 °C", in_water(r)));
  line(fmt::format("  added {}; {}, {}", r.added_at.date(),
                   counted(book.checks(r.id).size(), "check"),
                   counted(book.calibrations(r.id).size(), "calibration")));
  const auto correction = notebook::correction_in_force(book, r, now());
  line("  correction now: " + correction.provenance);
  if (!r.maker.empty() || !r.serial.empty())
    line(fmt::format("  maker: {}; serial number: {}", r.maker.empty() ? "not stated" : r.maker,
                     r.serial.empty() ? "not stated" : r.serial));
  if (!r.note.empty()) line("  note: " + r.note);
  notes(correction.remarks);
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
  line(fmt::format("{}: {}", r.name(), retired_text(retired)));
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
  const auto mass = add.add_option("--mass", o->mass, "mass of the hydrometer; 25 g unless stated")
                        .type_name("25g");
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
  add.add_option("--on", o->on, "when you got it; now unless stated").type_name("DATE");
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
  auto retire = c.add_subcommand("retire", "an instrument is used no more; its readings stay");
  retire.add_option("name", o->name, "its name").required();
  retire.add_option("--reason", o->reason, "why: broke, lost").required().type_name("TEXT");
  retire.add_option("--on", o->on, "since when; now unless stated").type_name("DATE");
  retire.callback([=, &session, &run] { run = [=, &session] { return run_retire(*o, session); }; });
}

}  // namespace areo::cli
