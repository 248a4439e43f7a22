// areo instrument: register what is on the shelf.
#include <fmt/format.h>

#include <filesystem>
#include <memory>

#include "areo/core/error.hpp"
#include "areo/notebook/recompute.hpp"
#include "areo/physics/scale_name.hpp"
#include "areo/physics/water.hpp"
#include "areo/report/json.hpp"
#include "areo/report/text.hpp"
#include "bench.hpp"
#include "calibrate.hpp"
#include "command.hpp"
#include "failure.hpp"
#include "instrument_text.hpp"
#include "parse_refraction.hpp"

namespace areo::cli {
namespace {

struct Options {
  std::string name, kind = "hydrometer", scale, from, to, division, glass, meniscus, tolerance, on,
                    note, reason;
  bool compensated = false, also_gravity = false;
};

// What the ends and the division are called on this scale: a bare "0.990", or "990kg/m3".
double on_scale(const std::string& text, const physics::Scale& scale, const char* what) {
  const TypedNumber n = number_with_unit(text, what);
  if (n.unit.empty()) return n.value;
  return mark_from_text(text, scale).value;
}

void require_scale(double lo, double hi, double division, const std::optional<double>& tolerance) {
  if (!(lo < hi) || !(division > 0) || !(division < hi - lo))
    throw Error{Errc::domain,
                fmt::format("a scale from {} to {} with division {} cannot be", lo, hi, division),
                "give --from the smaller and --to the larger end, e.g. 0.990 and 1.100"};
  if (tolerance && !(*tolerance > 0))
    throw Error{Errc::domain, "a tolerance is above zero", "leave it out for one division"};
}

notebook::InstrumentRecord hydrometer_record(const Options& o) {
  instruments::Hydrometer h;
  h.scale = o.scale.empty() ? physics::sg_20_20 : scale_from_text(o.scale);
  const instruments::Hydrometer usual = instruments::ordinary_hydrometer(h.scale);
  h.name = o.name;
  h.lo = o.from.empty() ? usual.lo : on_scale(o.from, h.scale, "the lower end");
  h.hi = o.to.empty() ? usual.hi : on_scale(o.to, h.scale, "the upper end");
  h.division = o.division.empty() ? usual.division : on_scale(o.division, h.scale, "the division");
  if (!o.glass.empty())
    h.glass_expansion_per_c = plain_number(o.glass, "the glass expansion") * 1e-6;
  if (!o.meniscus.empty()) h.meniscus_height = on_scale(o.meniscus, h.scale, "the meniscus");
  if (!o.tolerance.empty()) h.tolerance = on_scale(o.tolerance, h.scale, "the tolerance");
  require_scale(h.lo, h.hi, h.division, h.tolerance);
  // A scale that cannot be computed at its ends is refused now, not at the first reading.
  for (const double end : {h.lo, h.hi}) (void)physics::density_from_mark(h.scale, end);
  notebook::InstrumentRecord r;
  r.instrument = h;
  return r;
}

// A number on a refractometer's scale, bare or with its unit.
double on_refractometer(const std::string& text, const instruments::Refractometer& r) {
  return refraction_from_text(text, r).value;
}

notebook::InstrumentRecord refractometer_record(const Options& o) {
  const bool index = says_index(o.scale);
  if (!index && !o.scale.empty() && !says_brix(o.scale))
    throw ParseError{"a refractometer shows Brix or a refractive index", o.scale, 0, o.scale.size(),
                     "write --scale Bx or --scale nD"};
  instruments::Refractometer r = instruments::ordinary_refractometer(
      index ? instruments::RefractometerScale::index : instruments::RefractometerScale::brix);
  r.name = o.name;
  r.compensated = o.compensated;
  if (!o.from.empty()) r.lo = on_refractometer(o.from, r);
  if (!o.to.empty()) r.hi = on_refractometer(o.to, r);
  if (!o.division.empty()) r.division = on_refractometer(o.division, r);
  if (!o.tolerance.empty()) r.tolerance = on_refractometer(o.tolerance, r);
  r.also_gravity = o.also_gravity;
  require_scale(r.lo, r.hi, r.division, r.tolerance);
  if (index && r.also_gravity)
    throw Error{Errc::inconsistent, "a gravity scale stands beside a Brix scale, not an index",
                "leave --gravity-scale out"};
  notebook::InstrumentRecord record;
  record.instrument = r;
  return record;
}

notebook::InstrumentRecord thermometer_record(const Options& o) {
  instruments::Thermometer t;
  t.name = o.name;
  if (!o.from.empty()) t.lo_c = celsius_from_text(o.from);
  if (!o.to.empty()) t.hi_c = celsius_from_text(o.to);
  if (!o.division.empty()) t.division_c = celsius_difference_from_text(o.division);
  if (!(t.lo_c < t.hi_c))
    throw Error{Errc::domain, fmt::format("a scale from {} to {} °C cannot be", t.lo_c, t.hi_c)};
  notebook::InstrumentRecord r;
  r.instrument = t;
  return r;
}

using Retired = std::optional<notebook::Retirement>;

std::string retired_text(const notebook::Retirement& r) {
  return fmt::format("retired on {}: {}", r.at.date(), r.reason);
}

std::string json_of(const notebook::InstrumentRecord& r, const Retired& retired) {
  std::string out = fmt::format(
      R"({{"name":{},"description":{},"added_at":"{}","note":{},"retired_at":{},"retired_reason":{})",
      report::json_string(r.name()), report::json_string(instrument_text(r)), r.added_at.text(),
      report::json_string(r.note), retired ? report::json_string(retired->at.text()) : "null",
      retired ? report::json_string(retired->reason) : "null");
  if (const auto* h = r.hydrometer())
    out += fmt::format(R"(,"kind":"hydrometer","scale":"{}","from":{},"to":{},"division":{},)"
                       R"("glass_expansion_per_c":{},"meniscus_height":{},"tolerance":{})",
                       physics::scale_key(h->scale), h->lo, h->hi, h->division,
                       h->glass_expansion_per_c,
                       h->meniscus_height ? fmt::format("{}", *h->meniscus_height) : "null",
                       h->maximum_permissible_error());
  else if (const auto* p = r.refractometer())
    out += fmt::format(
        R"(,"kind":"refractometer","scale":"{}","from":{},"to":{},"division":{},)"
        R"("compensated":{},"gravity_scale":{},"tolerance":{})",
        p->scale == instruments::RefractometerScale::brix ? "brix" : "refractive_index", p->lo,
        p->hi, p->division, p->compensated, p->also_gravity, p->maximum_permissible_error());
  else
    out += fmt::format(R"(,"kind":"thermometer","from_c":{},"to_c":{},"division_c":{})",
                       r.thermometer()->lo_c, r.thermometer()->hi_c, r.thermometer()->division_c);
  return out + "}";
}

std::string counted(std::size_t n, const char* what) {
  return fmt::format("{} {}{}", n, what, n == 1 ? "" : "s");
}

// What an instrument without error shows in water at 20 °C: not 1.000 on every hydrometer.
std::string in_water(const notebook::InstrumentRecord& r) {
  const Temperature t = celsius_point(20);
  const auto* h = r.hydrometer();
  const double shown =
      h != nullptr ? instruments::ideal_indication(*h, physics::water_density(t), t)
                   : instruments::ideal_indication(*r.refractometer(), physics::Liquid{}, t);
  const std::string unit = unit_of(r);
  return report::fixed(shown, report::supported_decimals(r.graduation().division / 10)) +
         (unit.empty() ? "" : " " + unit);
}

notebook::InstrumentRecord record_of(const Options& o) {
  const bool refractometer = o.kind == "refractometer";
  for (const auto& [given, name] :
       {std::pair{o.compensated, "--atc"}, std::pair{o.also_gravity, "--gravity-scale"}})
    if (given && !refractometer)
      throw UsageError{fmt::format("{} belongs to a refractometer", name),
                       "add --kind refractometer, or leave it out"};
  if (o.kind == "hydrometer") return hydrometer_record(o);
  for (const auto& [text, name] : {std::pair{o.glass, "--glass"}, {o.meniscus, "--meniscus"}})
    if (!text.empty())
      throw UsageError{fmt::format("{} belongs to a hydrometer", name), "leave it out"};
  if (refractometer) return refractometer_record(o);
  for (const auto& [text, name] : {std::pair{o.scale, "--scale"}, {o.tolerance, "--tolerance"}})
    if (!text.empty())
      throw UsageError{fmt::format("{} does not belong to a thermometer", name), "leave it out"};
  return thermometer_record(o);
}

int run_add(const Options& o, const Session& session) {
  if (o.name.empty()) throw Error{Errc::domain, "an instrument needs a name", "e.g. stem-1"};
  notebook::InstrumentRecord r = record_of(o);
  r.added_at = o.on.empty() ? now() : past_moment_from_text(o.on, now());
  r.note = o.note;
  notebook::Notebook{notebook_path(session), notebook::Open::create}.add(r);
  if (session.json) {
    raw_line(json_of(r, {}));
    return done;
  }
  line(fmt::format("{}: {}", r.name(), instrument_text(r)));
  if (r.thermometer() == nullptr)
    line(
        fmt::format("next: in clean water at 20 °C it should show {}; "
                    "areo calibrate water {} READING TEMP",
                    in_water(r), r.name()));
  else
    line(fmt::format("next: in melting ice it should show 0 °C; areo calibrate ice {} READING",
                     r.name()));
  return done;
}

int run_list(const Session& session) {
  const std::string path = notebook_path(session);
  if (!std::filesystem::exists(path)) {
    if (!session.json) line("no notebook yet; areo instrument add NAME makes one");
    return done;
  }
  const notebook::Notebook book{path, notebook::Open::read};
  for (const auto& r : book.instruments()) {
    const Retired retired = book.retired(r.id);
    if (session.json)
      raw_line(json_of(r, retired));
    else
      line(fmt::format("{}: {}{}", r.name(), instrument_text(r),
                       retired ? "; " + retired_text(*retired) : ""));
  }
  return done;
}

int run_show(const Options& o, const Session& session) {
  const notebook::Notebook book{notebook_path(session), notebook::Open::read};
  const auto r = book.instrument(o.name);
  if (session.json) {
    raw_line(json_of(r, book.retired(r.id)));
    return done;
  }
  line(fmt::format("{}: {}", r.name(), instrument_text(r)));
  if (const auto* h = r.hydrometer()) {
    line(fmt::format("  glass expansion {:g}e-6 per °C, tolerance {:g}",
                     h->glass_expansion_per_c * 1e6, h->maximum_permissible_error()));
  }
  if (r.thermometer() == nullptr)
    line(fmt::format("  without error it shows {} in water at 20 °C", in_water(r)));
  line(fmt::format("  added {}; {}, {}", r.added_at.date(),
                   counted(book.checks(r.id).size(), "check"),
                   counted(book.calibrations(r.id).size(), "calibration")));
  const auto correction = notebook::correction_in_force(book, r, now());
  line("  correction now: " + correction.provenance);
  if (!r.note.empty()) line("  note: " + r.note);
  notes(correction.remarks);
  return done;
}

int run_retire(const Options& o, const Session& session) {
  notebook::Notebook book{notebook_path(session)};
  const auto r = book.instrument(o.name);
  // What was read on the day that it broke was read before it did.
  const notebook::Retirement retired{o.on.empty() ? now() : past_day_end_from_text(o.on, now()),
                                     o.reason};
  book.retire(r.id, retired.at, retired.reason);
  if (session.json) {
    raw_line(json_of(r, retired));
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
  add.add_flag("--atc", o->compensated, "a refractometer with temperature compensation");
  add.add_flag("--gravity-scale", o->also_gravity, "a refractometer with a gravity scale as well");
  add.add_option("--tolerance", o->tolerance, "largest error allowed; one division unless stated")
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
