// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/entry/check_entry.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "areo/core/error.hpp"
#include "areo/entry/noted.hpp"
#include "areo/notebook/recompute.hpp"
#include "areo/physics/boiling.hpp"
#include "areo/text/format.hpp"
#include "areo/text/parse.hpp"
#include "areo/wording/instrument.hpp"

namespace areo::entry {

using notebook::CheckMethod;
using notebook::CheckRecord;
using notebook::InstrumentRecord;

namespace {

void note_reading(CheckRecord& r, const TypedCheck& o, const InstrumentRecord& instrument) {
  r.reading_typed = o.reading;
  if (instrument.thermometer() != nullptr) {
    r.reading = text::celsius_from_text(o.reading);
    r.reading_half_width =
        std::max(instrument.thermometer()->division_c / 2, text::celsius_half_width(o.reading));
    return;
  }
  const NotedMark m = noted_mark(o.reading, instrument);
  r.reading = m.value;
  r.reading_half_width = m.half_width;
  r.meniscus = o.top ? instruments::Meniscus::top : instruments::Meniscus::level;
}

void note_temperature(CheckRecord& r, const TypedCheck& o, const notebook::Notebook& book) {
  const NotedTemperature t =
      noted_temperature(o.temperature, o.thermometer, o.temperature_accuracy, false, book);
  r.temperature_typed = o.temperature;
  r.temperature_c = t.celsius;
  r.thermometer = t.thermometer;
  r.temperature_half_width_c = t.half_width_c;
}

}  // namespace

CheckRecord check_record(const TypedCheck& o, CheckMethod method,
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

}  // namespace areo::entry
