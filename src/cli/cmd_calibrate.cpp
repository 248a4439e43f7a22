// areo calibrate: check an instrument, build its correction, put it in force.
#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <cmath>
#include <memory>
#include <variant>

#include "areo/calibration/fit.hpp"
#include "areo/core/error.hpp"
#include "areo/notebook/recompute.hpp"
#include "areo/physics/boiling.hpp"
#include "areo/physics/scale_name.hpp"
#include "areo/report/json.hpp"
#include "areo/report/text.hpp"
#include "bench.hpp"
#include "command.hpp"
#include "failure.hpp"

namespace areo::cli {
namespace {

using notebook::CheckMethod;
using notebook::CheckRecord;
using notebook::InstrumentRecord;

struct Options {
  std::string name, reading, temperature, temperature_accuracy, solute, water, balance = "1g";
  std::string correction, expanded, factor = "2", pressure, altitude, on, from, note;
  bool top = false;
  std::vector<notebook::Id> without;
};

std::string unit_of(const InstrumentRecord& r) {
  return r.hydrometer() != nullptr ? physics::scale_unit(r.hydrometer()->scale) : "°C";
}

// An indication with the decimals of the instrument's scale.
std::string shown(const InstrumentRecord& r, double indication) {
  const auto* h = r.hydrometer();
  return report::indication_text(
      indication,
      h != nullptr ? h->division : std::get<instruments::Thermometer>(r.instrument).division_c);
}

// Reads what was typed; what was read goes into the notebook, not what follows from it.
CheckRecord record_of(const Options& o, CheckMethod method, const InstrumentRecord& instrument) {
  CheckRecord r;
  r.instrument = instrument.id;
  r.method = method;
  r.made_at = o.on.empty() ? now() : past_moment_from_text(o.on, now());
  r.note = o.note;
  r.reading_typed = o.reading;
  if (const auto* h = instrument.hydrometer()) {
    const TypedMark m = mark_from_text(o.reading, h->scale);
    r.reading = m.value;
    if (m.half_width > h->division / 2) r.reading_half_width = m.half_width;
    r.meniscus = o.top ? instruments::Meniscus::top : instruments::Meniscus::level;
  } else {
    r.reading = celsius_from_text(o.reading);
    r.reading_half_width =
        std::max(instrument.thermometer()->division_c / 2, celsius_half_width(o.reading));
  }
  if (!o.temperature.empty()) {
    r.temperature_typed = o.temperature;
    r.temperature_c = celsius_from_text(o.temperature);
    if (!o.temperature_accuracy.empty())
      r.temperature_half_width_c = celsius_difference_from_text(o.temperature_accuracy);
  }
  if (method == CheckMethod::sugar || method == CheckMethod::salt) {
    const auto make =
        method == CheckMethod::sugar ? calibration::sugar_solution : calibration::salt_solution;
    r.solution =
        make(grams_from_text(o.solute), grams_from_text(o.water), grams_from_text(o.balance));
  }
  if (method == CheckMethod::certificate) {
    r.correction = plain_number(o.correction, "a correction");
    r.expanded = plain_number(o.expanded, "an expanded uncertainty");
    r.coverage_factor = plain_number(o.factor, "a coverage factor");
  }
  if (method == CheckMethod::boiling) {
    const bool measured = !o.pressure.empty();
    r.pressure_pa = (measured ? pressure_from_text(o.pressure)
                              : physics::standard_pressure(altitude_from_text(o.altitude)))
                        .value();
    r.pressure_half_width_pa =
        measured ? calibration::barometer_half_width_pa : calibration::weather_half_width_pa;
  }
  return r;
}

// "HIGH by 0.0012": what the instrument does, in words.
std::string behaviour(const calibration::Check& c, const std::string& unit) {
  const uncertainty::Value& b = c.correction;
  const double expanded = b.expanded();
  const int decimals = report::supported_decimals(expanded);
  const std::string behind = unit.empty() ? "" : " " + unit;
  if (std::abs(b.estimate) <= expanded)
    return fmt::format("right, as far as this check can tell (off by {:+.{}f} ± {:.{}f}{})",
                       -b.estimate, decimals, expanded, decimals, behind);
  return fmt::format("{} by {:.{}f} ± {:.{}f}{}", b.estimate < 0 ? "HIGH" : "LOW",
                     std::abs(b.estimate), decimals, expanded, decimals, behind);
}

std::string check_json(const CheckRecord& r, const calibration::Check& c, const std::string& unit) {
  return fmt::format(
      R"({{"check":{},"method":"{}","made_at":"{}","indication":{},"expected":{},"correction":{},)"
      R"("standard_uncertainty":{},"expanded_uncertainty":{},"unit":"{}"}})",
      r.id, notebook::word(r.method), r.made_at.text(), c.indication, c.expected.estimate,
      c.correction.estimate, c.correction.u, c.correction.expanded(), unit);
}

int run_check(const Options& o, CheckMethod method, const Session& session) {
  notebook::Notebook book{notebook_path(session)};
  const InstrumentRecord instrument = book.instrument(o.name);
  CheckRecord r = record_of(o, method, instrument);
  // Evaluated before it is written: an impossible check is refused whole.
  const calibration::Check c = notebook::evaluate(instrument, r);
  r.id = book.add(r);
  const std::string unit = unit_of(instrument);
  if (session.json) {
    raw_line(check_json(r, c, unit));
    return done;
  }
  line(fmt::format("{} shows {}, it should show {}", o.name, shown(instrument, c.indication),
                   report::value_text(c.expected, unit, session.full)));
  line(fmt::format("it reads {}", behaviour(c, unit)));
  if (instrument.hydrometer() != nullptr && !r.temperature_c && method != CheckMethod::certificate)
    line("note: no temperature given: the scale's reference temperature assumed, ± 5 °C");
  line(fmt::format("noted as check {} of {}", r.id, r.made_at.date()));
  const bool more = book.checks(instrument.id).size() > 1;
  if (instrument.hydrometer() == nullptr)
    line(fmt::format("next: {}areo calibrate fit {}",
                     more ? "" : "the other fixed point (ice or boiling water), then ", o.name));
  else
    line(fmt::format(
        "next: {} areo calibrate fit {}",
        more ? "another solution, or" : "a weighed sugar solution (areo solution sugar), then",
        o.name));
  return done;
}

struct Fitted {
  InstrumentRecord instrument;
  std::vector<CheckRecord> checks;
  calibration::CorrectionFit fit;
  double tolerance = 0;
};

Fitted fit_now(const notebook::Notebook& book, const Options& o) {
  Fitted f{book.instrument(o.name), {}, {}, 0};
  std::vector<CheckRecord> all = book.checks(f.instrument.id);
  for (const notebook::Id left_out : o.without)
    if (std::none_of(all.begin(), all.end(), [&](const auto& c) { return c.id == left_out; }))
      throw Error{Errc::domain, fmt::format("{} has no check {}", o.name, left_out),
                  fmt::format("areo calibrate show {} lists its checks", o.name)};
  for (CheckRecord& c : all)
    if (std::find(o.without.begin(), o.without.end(), c.id) == o.without.end())
      f.checks.push_back(std::move(c));
  f.fit = notebook::fit(f.instrument, f.checks);
  f.tolerance = f.instrument.hydrometer() != nullptr
                    ? f.instrument.hydrometer()->maximum_permissible_error()
                    : f.instrument.thermometer()->division_c;
  return f;
}

uncertainty::Value correction_at(const instruments::Correction& c, double indication) {
  return {c.at(indication), c.uncertainty_at(indication)};
}

// The verdict for people: with the reason if there is none.
const char* sentence(calibration::Conformity c) {
  switch (c) {
    case calibration::Conformity::within: return "within its tolerance";
    case calibration::Conformity::outside:
      return "OUTSIDE its tolerance; with the correction it serves";
    case calibration::Conformity::cannot_tell: return "these checks cannot tell";
  }
  return "";
}

const char* word(calibration::Conformity c) {
  switch (c) {
    case calibration::Conformity::within: return "within";
    case calibration::Conformity::outside: return "outside";
    case calibration::Conformity::cannot_tell: return "cannot tell";
  }
  return "";
}

void print_checks(const Fitted& f) {
  const std::string unit = unit_of(f.instrument);
  for (std::size_t i = 0; i < f.checks.size(); ++i) {
    const auto c = notebook::evaluate(f.instrument, f.checks[i]);
    const std::string temperature =
        f.checks[i].temperature_c ? " at " + report::celsius_text(*f.checks[i].temperature_c) : "";
    line(fmt::format("  check {}: {}{}: shows {}, should show {}, off the fit by {:+.{}f}",
                     f.checks[i].id, c.label, temperature, shown(f.instrument, c.indication),
                     report::value_text(c.expected, unit), f.fit.residuals[i],
                     report::supported_decimals(c.correction.expanded())));
  }
}

void print_fit(const Fitted& f) {
  const auto& c = f.fit.correction;
  const std::string unit = unit_of(f.instrument);
  const auto instruction_at = [&](double r) {
    const auto b = correction_at(c, r);
    return report::instruction(b.estimate, report::supported_decimals(b.expanded()));
  };
  if (f.fit.slope_used) {
    line(fmt::format("{}: {} at {}, {} at {}, in between in proportion", f.instrument.name(),
                     instruction_at(c.checked_lo), shown(f.instrument, c.checked_lo),
                     instruction_at(c.checked_hi), shown(f.instrument, c.checked_hi)));
  } else {
    line(fmt::format("{}: {} to every reading", f.instrument.name(), instruction_at(c.r0)));
  }
  line(fmt::format("  correction at {:.4g}: {}", c.r0,
                   report::value_text(correction_at(c, c.r0), unit)));
  line(fmt::format("  checked from {} to {} in {}; {}", shown(f.instrument, c.checked_lo),
                   shown(f.instrument, c.checked_hi), c.provenance, f.fit.reason));
  print_checks(f);
  if (f.fit.chi_squared_limit)
    line(fmt::format("  the checks {}: chi-squared {:.1f}, limit {:.1f} at 95 %",
                     f.fit.consistent ? "agree" : "DISAGREE", f.fit.line.chi_squared,
                     *f.fit.chi_squared_limit));
  line(fmt::format("  tolerance {:g}{}: {}", f.tolerance, unit.empty() ? "" : " " + unit,
                   sentence(calibration::judge(c, f.tolerance))));
}

std::string fit_json(const Fitted& f, const std::string& in_force_from) {
  const auto& c = f.fit.correction;
  return fmt::format(
      R"({{"instrument":{},"r0":{},"offset":{},"offset_standard_uncertainty":{},"slope":{},)"
      R"("slope_standard_uncertainty":{},"slope_used":{},"checked_from":{},"checked_to":{},)"
      R"("checks":{},"chi_squared":{},"degrees_of_freedom":{},"consistent":{},"suspect":{},)"
      R"("conformity":"{}","tolerance":{},"unit":"{}","in_force_from":{}}})",
      report::json_string(f.instrument.name()), c.r0, c.offset, c.u_offset, c.slope, c.u_slope,
      f.fit.slope_used, c.checked_lo, c.checked_hi, c.checks, f.fit.line.chi_squared,
      f.fit.line.degrees_of_freedom, f.fit.consistent,
      f.fit.suspect ? std::to_string(f.checks[*f.fit.suspect].id) : "null",
      word(calibration::judge(c, f.tolerance)), f.tolerance, unit_of(f.instrument),
      in_force_from.empty() ? "null" : fmt::format("\"{}\"", in_force_from));
}

int run_fit(const Options& o, const Session& session) {
  notebook::Notebook book{notebook_path(session)};
  const Fitted f = fit_now(book, o);
  std::string in_force;
  if (f.fit.consistent) {
    notebook::CalibrationRecord r;
    r.instrument = f.instrument.id;
    // Unless stated, from the last check on: a reading made before it used what was known then.
    r.in_force_from =
        o.from.empty() ? f.checks.back().made_at : past_moment_from_text(o.from, now());
    r.note = o.note;
    for (const CheckRecord& c : f.checks) r.checks.push_back(c.id);
    book.add(r);
    in_force = r.in_force_from.text();
  }
  if (session.json) {
    raw_line(fit_json(f, in_force));
    return f.fit.consistent ? done : said_no;
  }
  print_fit(f);
  if (!f.fit.consistent) {
    line("not put in force: the checks contradict each other beyond their uncertainties");
    if (f.fit.suspect) {
      const auto id = f.checks[*f.fit.suspect].id;
      line(
          fmt::format("next: repeat check {0}; without it the others agree best "
                      "(areo calibrate fit {1} --without {0})",
                      id, o.name));
    } else {
      line("next: repeat both checks; two alone cannot tell which of them is wrong");
    }
    return said_no;
  }
  line(fmt::format("  in force from {}; a user's check, not an accredited calibration",
                   in_force.substr(0, 10)));
  line(fmt::format("next: areo correct READING --temp TEMP --{} {}",
                   f.instrument.hydrometer() != nullptr ? "instrument" : "thermometer", o.name));
  return done;
}

int run_show(const Options& o, const Session& session) {
  const notebook::Notebook book{notebook_path(session)};
  const InstrumentRecord instrument = book.instrument(o.name);
  const auto checks = book.checks(instrument.id);
  if (checks.empty()) {
    if (!session.json) line(fmt::format("{} was never checked", o.name));
    return done;
  }
  if (session.json) {
    for (const CheckRecord& c : checks)
      raw_line(check_json(c, notebook::evaluate(instrument, c), unit_of(instrument)));
    return done;
  }
  print_fit(fit_now(book, o));
  for (const auto& c : book.calibrations(instrument.id))
    line(fmt::format("  calibration {}: checks {}, in force from {}", c.id,
                     fmt::join(c.checks, ", "), c.in_force_from.date()));
  return done;
}

CLI::App* add_check(CLI::App& parent, const char* name, const char* what, CheckMethod method,
                    const std::shared_ptr<Options>& o, const Session& session, Run& run) {
  auto* c = parent.add_subcommand(name, what);
  c->add_option("name", o->name, "the instrument")->required();
  c->add_option("reading", o->reading, "what it shows")->required();
  c->add_option("--on", o->on, "when the check was made; now unless stated")->type_name("DATE");
  c->add_option("--note", o->note, "anything worth knowing");
  c->callback([=, &session, &run] {
    if (method == CheckMethod::boiling && o->pressure.empty() == o->altitude.empty())
      throw CLI::RequiredError("--pressure or --altitude");
    run = [=, &session] { return run_check(*o, method, session); };
  });
  return c;
}

void add_temperature_options(CLI::App& c, Options& o) {
  c.add_option("temperature", o.temperature, "temperature of the liquid: 21C, 70F");
  c.add_option("--temp-accuracy", o.temperature_accuracy, "±; 0.5C unless stated")
      ->type_name("0.2C");
  c.add_flag("--top", o.top, "read at the top of the meniscus");
}

}  // namespace

void setup_calibrate(CLI::App& app, const Session& session, Run& run) {
  const auto o = std::make_shared<Options>();
  auto* c = app.add_subcommand("calibrate", "check an instrument, build its correction");
  c->require_subcommand(1);
  auto* water =
      add_check(*c, "water", "a hydrometer in clean water", CheckMethod::water, o, session, run);
  add_temperature_options(*water, *o);
  for (const auto& [name, method] :
       {std::pair{"sugar", CheckMethod::sugar}, {"salt", CheckMethod::salt}}) {
    auto* s = add_check(*c, name, "a hydrometer in a weighed solution", method, o, session, run);
    add_temperature_options(*s, *o);
    s->add_option("--solute", o->solute, "mass of the sugar or salt")->required()->type_name("52g");
    s->add_option("--water", o->water, "mass of the water")->required()->type_name("448g");
    s->add_option("--balance", o->balance, "division of the balance; 1g unless stated")
        ->type_name("0.1g");
  }
  auto* point = add_check(*c, "certificate", "a point of a certificate: add CORRECTION at READING",
                          CheckMethod::certificate, o, session, run);
  point->add_option("--correction", o->correction, "to be added, in the unit of the scale")
      ->required();
  point->add_option("--expanded", o->expanded, "expanded uncertainty of the correction")
      ->required();
  point->add_option("--factor", o->factor, "coverage factor of the certificate; 2 unless stated");
  add_check(*c, "ice", "a thermometer in crushed melting ice", CheckMethod::ice, o, session, run);
  auto* boiling = add_check(*c, "boiling", "a thermometer in boiling water", CheckMethod::boiling,
                            o, session, run);
  auto* pressure =
      boiling
          ->add_option("--pressure", o->pressure, "pressure at the place, not reduced to sea level")
          ->type_name("98.2kPa");
  boiling->add_option("--altitude", o->altitude, "or the altitude; weather leaves ± 2 kPa")
      ->type_name("300m")
      ->excludes(pressure);
  auto* fit = c->add_subcommand("fit", "build the correction from the checks and put it in force");
  fit->add_option("name", o->name, "the instrument")->required();
  fit->add_option("--without", o->without, "leave these checks out")
      ->delimiter(',')
      ->type_name("N,N");
  fit->add_option("--from", o->from, "in force from; the last check unless stated")
      ->type_name("DATE");
  fit->add_option("--note", o->note, "anything worth knowing");
  fit->callback([=, &session, &run] { run = [=, &session] { return run_fit(*o, session); }; });
  auto* show = c->add_subcommand("show", "checks, fit and calibrations of an instrument");
  show->add_option("name", o->name, "the instrument")->required();
  show->callback([=, &session, &run] { run = [=, &session] { return run_show(*o, session); }; });
  c->footer(
      "Examples:\n  areo calibrate water stem-1 1.001 21C\n"
      "  areo calibrate sugar stem-1 1.041 21C --solute 52g --water 448g\n"
      "  areo calibrate certificate stem-1 1.040 --correction -0.0004 --expanded 0.0003\n"
      "  areo calibrate ice probe-1 0.5C\n"
      "  areo calibrate boiling probe-1 99.0C --altitude 300m\n"
      "  areo calibrate fit stem-1");
}

}  // namespace areo::cli
