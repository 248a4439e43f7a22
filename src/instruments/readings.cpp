#include "areo/instruments/readings.hpp"

#include <algorithm>

namespace areo::instruments {

const HydrometerInputs& Readings::hydrometer(const Hydrometer& h, const Correction& correction) {
  const auto known =
      std::find_if(hydrometers_.begin(), hydrometers_.end(), [&](const HydrometerInputs& i) {
        return i.hydrometer.name == h.name && i.hydrometer.scale == h.scale;
      });
  if (known != hydrometers_.end()) return *known;
  return hydrometers_.emplace_back(add_hydrometer(inputs, h, correction));
}

const RefractometerInputs& Readings::refractometer(const Refractometer& r,
                                                   const Correction& correction) {
  const auto known = std::find_if(
      refractometers_.begin(), refractometers_.end(), [&](const RefractometerInputs& i) {
        return i.refractometer.name == r.name && i.refractometer.scale == r.scale;
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
