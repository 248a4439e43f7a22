// areo calibrate water, sugar, salt, certificate, ice, boiling: one check.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "areo/core/error.hpp"
#include "areo/core/shell_word.hpp"
#include "areo/entry/noted.hpp"
#include "areo/notebook/recompute.hpp"
#include "areo/physics/boiling.hpp"
#include "areo/physics/scale_name.hpp"
#include "areo/text/format.hpp"
#include "areo/text/json.hpp"
#include "areo/text/parse.hpp"
#include "areo/wording/check.hpp"
#include "areo/wording/instrument.hpp"
#include "calibrate.hpp"
#include "failure.hpp"
#include "insist.hpp"
#include "open_notebook.hpp"
#include "usage.hpp"

namespace areo::cli {
namespace {

using notebook::CheckMethod;
using notebook::CheckRecord;
using notebook::InstrumentRecord;

void note_reading(CheckRecord& r, const CalibrateOptions& o, const InstrumentRecord& instrument) {
  r.reading_typed = o.reading;
  if (instrument.thermometer() != nullptr) {
    r.reading = text::celsius_from_text(o.reading);
    r.reading_half_width =
        std::max(instrument.thermometer()->division_c / 2, text::celsius_half_width(o.reading));
    return;
  }
  const entry::NotedMark m = entry::noted_mark(o.reading, instrument);
  r.reading = m.value;
  r.reading_half_width = m.half_width;
  refuse_together(o.top, "--top", instrument.refractometer() != nullptr, "a refractometer",
                  "it has no meniscus: leave --top out");
  r.meniscus = o.top ? instruments::Meniscus::top : instruments::Meniscus::level;
}

void note_temperature(CheckRecord& r, const CalibrateOptions& o, const notebook::Notebook& book) {
  const entry::NotedTemperature t =
      entry::noted_temperature(o.temperature, o.thermometer, o.temperature_accuracy, false, book);
  r.temperature_typed = o.temperature;
  r.temperature_c = t.celsius;
  r.thermometer = t.thermometer;
  r.temperature_half_width_c = t.half_width_c;
}

// What was read goes into the notebook, not what follows from it.
CheckRecord record_of(const CalibrateOptions& o, CheckMethod method,
                      const InstrumentRecord& instrument, const notebook::Notebook& book) {
  CheckRecord r;
  r.instrument = instrument.id;
  r.method = method;
  r.made_at = o.on.empty() ? now() : past_moment_from_text(o.on, now());
  r.note = o.note;
  note_reading(r, o, instrument);
  note_temperature(r, o, book);
  if (method == CheckMethod::sugar || method == CheckMethod::salt) {
    const auto make =
        method == CheckMethod::sugar ? calibration::sugar_solution : calibration::salt_solution;
    r.solution = make(text::grams_from_text(o.solute), text::grams_from_text(o.water),
                      text::grams_from_text(o.balance));
  }
  refuse_together(o.tap, "--tap", o.distilled, "--distilled", "say which of them it was");
  if (o.tap) r.water = calibration::Water::tap;
  if (o.distilled) r.water = calibration::Water::pure;
  r.balance = o.balance_name;
  r.apart = o.apart;
  if (method == CheckMethod::certificate) {
    r.correction = text::plain_number(o.correction, "a correction");
    r.expanded = text::plain_number(o.expanded, "an expanded uncertainty");
    r.coverage_factor = text::plain_number(o.factor, "a coverage factor");
  }
  if (method == CheckMethod::boiling) {
    const bool measured = !o.pressure.empty();
    r.pressure_pa = (measured ? text::pressure_from_text(o.pressure)
                              : physics::standard_pressure(text::altitude_from_text(o.altitude)))
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
  const int more = wording::telling_digits(b.estimate, expanded);
  const int place = text::last_place(expanded) + more;
  const std::string u = text::fixed(expanded, place) + (unit.empty() ? "" : " " + unit);
  if (std::abs(b.estimate) <= expanded)
    return fmt::format("right, as far as this check can tell (off by {} ± {})",
                       wording::signed_text(-b.estimate, expanded, more), u);
  return fmt::format("{} by {} ± {}", b.estimate < 0 ? "HIGH" : "LOW",
                     text::fixed(std::abs(b.estimate), place), u);
}

// Two places of the scale at least: water for its foot, a weighed solution further up.
std::string next_step(const InstrumentRecord& instrument, const std::vector<CheckRecord>& checks) {
  const auto any = [&](std::initializer_list<CheckMethod> methods) {
    return std::any_of(checks.begin(), checks.end(), [&](const CheckRecord& c) {
      return std::find(methods.begin(), methods.end(), c.method) != methods.end();
    });
  };
  using enum CheckMethod;
  const std::string& name = instrument.name();
  const std::string then = fmt::format("areo calibrate fit {}", shell_word(name));
  const bool certified = any({certificate});
  if (instrument.thermometer() != nullptr)
    return certified || (any({ice}) && any({boiling}))
               ? (certified ? "the certificate's other points, or " : "") + then
               : fmt::format("the other fixed point ({}), then {}",
                             any({ice}) ? "boiling water" : "melting ice", then);
  if (!certified && !any({water}))
    return fmt::format("clean water as well: areo calibrate water {} READING TEMP, then {}",
                       shell_word(name), then);
  if (!certified && !any({sugar, salt}))
    return fmt::format("a weighed sugar solution (areo solution sugar), then {}", then);
  return fmt::format("{}, or {}", certified ? "the certificate's other points" : "another solution",
                     then);
}

// A boundary at the foot of the scale may lie anywhere below it: no reading, if an instrument
// without error would show less than its scale has.
void refuse_foot_of_scale(const InstrumentRecord& instrument, const calibration::Check& c) {
  const notebook::Graduation g = instrument.graduation();
  const bool at_foot = c.indication <= g.lo + g.division / 10;
  if (instrument.refractometer() == nullptr || !at_foot ||
      c.expected.estimate + c.expected.expanded() >= g.lo)
    return;
  throw Error{
      Errc::inconsistent,
      fmt::format("{} at the foot of the scale says nothing: without error {} would show {}, "
                  "less than its scale has",
                  wording::shown(instrument, c.indication), instrument.name(),
                  text::value_text(c.expected, wording::unit_of(instrument))),
      "check it in water of 20 °C or a little colder"};
}

}  // namespace

int run_check(const CalibrateOptions& o, CheckMethod method, const Session& session) {
  notebook::Notebook book = open_notebook(session);
  const InstrumentRecord instrument = book.instrument(o.name);
  require_method(instrument, method);
  CheckRecord r = record_of(o, method, instrument, book);
  // Evaluated before it is written: an impossible check is refused whole.
  const calibration::Check c = evaluate(book, instrument, std::span{&r, 1}).checks.front();
  refuse_foot_of_scale(instrument, c);
  if (!insisted(batch::doubts(instrument, r, c, book.checks(instrument.id)), o.yes, session))
    return said_no;
  r.id = book.add(r);
  const std::string unit = wording::unit_of(instrument);
  const auto remarks = remarks_on_thermometers(book, std::span{&r, 1});
  if (session.json) {
    raw_line(wording::check_json(r, c, unit, remarks));
    return done;
  }
  line(fmt::format("{} shows {}, it should show {}", o.name,
                   wording::shown(instrument, c.indication),
                   text::value_text(c.expected, unit, session.full)));
  line(fmt::format("it reads {}", behaviour(c, unit)));
  if (instrument.thermometer() == nullptr && !r.temperature_c && method != CheckMethod::certificate)
    line("note: no temperature given: the scale's reference temperature assumed, ± 5 °C");
  if (!r.water && in_liquid(method))
    line(
        "note: nobody named the water: taken as pure, with the doubt of 0 to 0.6 g/L of solids; "
        "say --distilled or --tap with a check");
  notes(remarks);
  line(fmt::format("noted as check {} of {}", r.id, r.made_at.date()));
  line("next: " + next_step(instrument, book.checks(instrument.id)));
  return done;
}

}  // namespace areo::cli
