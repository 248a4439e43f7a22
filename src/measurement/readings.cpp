// SPDX-License-Identifier: GPL-3.0-or-later
#include "readings.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "areo/core/error.hpp"
#include "areo/instruments/stem.hpp"
#include "areo/physics/mixture.hpp"

namespace areo::measurement {
namespace {

void add_once(std::vector<Note>& notes, Note note) {
  if (std::find(notes.begin(), notes.end(), note) == notes.end()) notes.push_back(std::move(note));
}

// What hydrometer and refractometer have in common.
void add_instrument_notes(std::vector<Note>& notes, const std::string& name, double division,
                          const instruments::Correction& c, double indication,
                          const instruments::TemperatureReading& t, const std::string& of) {
  if (t.assumed) add_once(notes, note::AssumedTemperature{of, t.indication_c, t.half_width_c});
  if (t.thermometer && t.correction && t.correction->checks > 0 &&
      t.correction->beyond(t.indication_c) != 0)
    add_once(notes,
             note::OutsideCheckedTemperatures{t.thermometer->name, t.indication_c,
                                              t.correction->checked_lo, t.correction->checked_hi});
  if (t.thermometer && t.correction) add_remarks(notes, t.correction->remarks);
  add_remarks(notes, c.remarks);
  if (c.checks == 0 && c.not_in_force)
    add_once(notes, note::NotInForce{name, c.provenance, division});
  else if (c.checks == 0)
    add_once(notes, note::NeverChecked{name, division});
  if (c.beyond(indication) != 0)
    add_once(notes, note::OutsideChecked{name, indication, c.checked_lo, c.checked_hi});
}

}  // namespace

ExtractFraction extract_at(const instruments::ReadingInputs& reading, const uncertainty::Point& x) {
  return physics::extract_from_density(reading.density(x), reading.temperature(x));
}

void require_drink_temperature(const instruments::TemperatureReading& t) {
  physics::require_drink_temperature(instruments::estimated(t));
  instruments::require_temperature(physics::drink_temperature_range, t);
}

void require_sugar_liquid(const Calibrated& instrument,
                          const instruments::HydrometerReading& reading,
                          const instruments::ReadingInputs& inputs, const uncertainty::Point& x) {
  instruments::require_temperature(physics::mixture_temperature_range, reading.temperature);
  const ModelTemperature t = inputs.temperature(x);
  const Density rho = inputs.density(x);
  const Range& range = physics::mixture_extract_range;
  const Density least = physics::density({ExtractFraction{range.lo}}, t);
  const Density most = physics::density({ExtractFraction{range.hi}}, t);
  if (rho >= least && rho <= most) return;
  const instruments::Hydrometer& h = instrument.hydrometer;
  throw Error{
      Errc::domain,
      fmt::format("{} of {}, corrected {:.4g}, at {} °C is not a sugar liquid: they go from {:.4g} "
                  "to {:.4g} [{}]",
                  number_text(reading.indication), h.name, inputs.corrected_indication(x),
                  celsius_number_text(t.celsius()), usual_indication(h, least, t),
                  usual_indication(h, most, t), range.source),
      "check the reading, its temperature and the instrument's calibration"};
}

void add_remarks(std::vector<Note>& notes, const std::vector<std::string>& remarks) {
  for (const std::string& r : remarks) add_once(notes, note::Said{r});
}

void add_notes(std::vector<Note>& notes, const Calibrated& instrument,
               const instruments::HydrometerReading& reading, const std::string& of) {
  const instruments::Hydrometer& h = instrument.hydrometer;
  add_instrument_notes(notes, h.name, h.division, instrument.correction, reading.indication,
                       reading.temperature, of);
  if (reading.meniscus == instruments::Meniscus::top && !h.meniscus_height)
    add_once(notes, note::TopOfMeniscus{h.name, instruments::usual_meniscus_divisions(h)});
}

void add_notes(std::vector<Note>& notes, const RefractometerSample& sample, const std::string& of) {
  const instruments::Refractometer& r = sample.instrument.refractometer;
  add_instrument_notes(notes, r.name, r.division, sample.instrument.correction,
                       sample.reading.indication, sample.reading.temperature, of);
}

}  // namespace areo::measurement
