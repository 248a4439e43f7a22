#include "areo/instruments/readings.hpp"

#include <algorithm>
#include <utility>

namespace areo::instruments {

namespace {

// Between two readings the instrument may have been calibrated anew. Where the correction comes
// from is no part of it: before the first calibration the words name the day.
bool same(const Correction& a, const Correction& b) {
  return a.r0 == b.r0 && a.offset == b.offset && a.u_offset == b.u_offset && a.slope == b.slope &&
         a.u_slope == b.u_slope && a.u_slope_beyond == b.u_slope_beyond &&
         a.checked_lo == b.checked_lo && a.checked_hi == b.checked_hi;
}

}  // namespace

const HydrometerInputs& Readings::hydrometer(const Hydrometer& h, const Correction& correction) {
  const HydrometerInputs* instrument = nullptr;
  for (const HydrometerInputs& i : hydrometers_) {
    if (i.hydrometer.name != h.name || i.hydrometer.scale != h.scale) continue;
    if (same(i.correction.correction, correction)) return i;
    instrument = &i;
  }
  if (instrument == nullptr)
    return hydrometers_.emplace_back(add_hydrometer(inputs, h, correction));
  // Calibrated anew, but still the same glass.
  HydrometerInputs anew = *instrument;
  anew.correction = add_correction(inputs, h.name, "scale", correction);
  return hydrometers_.emplace_back(std::move(anew));
}

const RefractometerInputs& Readings::refractometer(const Refractometer& r,
                                                   const Correction& correction) {
  const auto known = std::find_if(
      refractometers_.begin(), refractometers_.end(), [&](const RefractometerInputs& i) {
        return i.refractometer.name == r.name && i.refractometer.scale == r.scale &&
               same(i.correction.correction, correction);
      });
  if (known != refractometers_.end()) return *known;
  return refractometers_.emplace_back(add_refractometer(inputs, r, correction));
}

std::optional<CorrectionInputs> Readings::thermometer(const TemperatureReading& t) const {
  if (!t.thermometer || !t.correction) return std::nullopt;
  for (const NamedThermometer& known : thermometers_)
    if (known.name == t.thermometer->name && known.provenance == t.correction->provenance)
      return known.correction;
  return std::nullopt;
}

void Readings::remember(const TemperatureReading& t, const std::optional<CorrectionInputs>& used) {
  if (used && !thermometer(t))
    thermometers_.push_back({t.thermometer->name, t.correction->provenance, *used});
}

void Readings::note_use(const std::variant<Hydrometer, Refractometer>& instrument,
                        const CorrectionInputs& correction, const InstrumentUse::Mark& mark) {
  for (InstrumentUse& known : uses_)
    if (known.correction.offset.index == correction.offset.index) {
      known.marks.push_back(mark);
      return;
    }
  uses_.push_back({instrument, correction, {mark}});
}

ReadingInputs Readings::add(const Hydrometer& h, const Correction& correction,
                            const HydrometerReading& reading, const std::string& of,
                            const std::optional<uncertainty::InputRef>& surface) {
  const HydrometerInputs& used = hydrometer(h, correction);
  ReadingInputs added{inputs, used, reading, of, thermometer(reading.temperature), surface};
  remember(reading.temperature, added.temperature_inputs().correction);
  note_use(h, used.correction, {reading.indication, added.indication_input()});
  return added;
}

RefractionInputs Readings::add(const Refractometer& r, const Correction& correction,
                               const RefractometerReading& reading, const std::string& of) {
  const RefractometerInputs& used = refractometer(r, correction);
  RefractionInputs added{inputs, used, reading, of, thermometer(reading.temperature)};
  remember(reading.temperature, added.temperature_inputs().correction);
  note_use(r, used.correction, {reading.indication, added.indication_input()});
  return added;
}

}  // namespace areo::instruments
