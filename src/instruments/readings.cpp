// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/instruments/readings.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "areo/core/error.hpp"

namespace areo::instruments {

namespace {

// One instrument has one scale, one glass, one name.
template <class Instrument>
bool same(const Instrument& a, const Instrument& b) {
  if (!(a.identity == b.identity)) return false;
  if (a == b) return true;
  throw Error{
      Errc::inconsistent,
      fmt::format("one instrument is described in two ways, as '{}' and as '{}'", a.name, b.name),
      "describe it once, or give what was copied from it an identity of its own"};
}

// The same knowledge of an instrument, as old as it is at this reading.
template <class InstrumentInputs>
InstrumentInputs with_drift_of(const Correction& correction, InstrumentInputs known) {
  known.correction.correction.drift_part = correction.drift_part;
  return known;
}

}  // namespace

HydrometerInputs Readings::hydrometer(const Hydrometer& h, const Correction& correction) {
  const HydrometerInputs* instrument = nullptr;
  for (const HydrometerInputs& i : hydrometers_) {
    if (!same(i.hydrometer, h)) continue;
    if (same_knowledge(i.correction.correction, correction)) return with_drift_of(correction, i);
    instrument = &i;
  }
  if (instrument == nullptr)
    return hydrometers_.emplace_back(add_hydrometer(inputs, h, correction));
  // Calibrated anew, but still the same glass.
  HydrometerInputs anew = *instrument;
  anew.correction =
      add_correction(inputs, {h.identity, h.name}, uncertainty::unit_of_scale, correction);
  return hydrometers_.emplace_back(std::move(anew));
}

RefractometerInputs Readings::refractometer(const Refractometer& r, const Correction& correction) {
  const auto known = std::find_if(
      refractometers_.begin(), refractometers_.end(), [&](const RefractometerInputs& i) {
        return same(i.refractometer, r) && same_knowledge(i.correction.correction, correction);
      });
  if (known != refractometers_.end()) return with_drift_of(correction, *known);
  return refractometers_.emplace_back(add_refractometer(inputs, r, correction));
}

std::optional<CorrectionInputs> Readings::thermometer(const TemperatureReading& t) const {
  if (!t.thermometer || !t.correction) return std::nullopt;
  for (const KnownThermometer& known : thermometers_)
    if (same(known.thermometer, *t.thermometer) &&
        same_knowledge(known.correction.correction, *t.correction)) {
      CorrectionInputs same_inputs = known.correction;
      same_inputs.correction.drift_part = t.correction->drift_part;
      return same_inputs;
    }
  return std::nullopt;
}

void Readings::remember(const TemperatureReading& t, const std::optional<CorrectionInputs>& used) {
  if (used && !thermometer(t)) thermometers_.push_back({*t.thermometer, *used});
}

void Readings::note_use(const std::variant<Hydrometer, Refractometer>& instrument,
                        const CorrectionInputs& correction, const InstrumentUse::Mark& mark,
                        const std::optional<uncertainty::InputRef>& made_for) {
  for (InstrumentUse& known : uses_)
    if (known.correction.offset.index == correction.offset.index) {
      known.marks.push_back(mark);
      return;
    }
  uses_.push_back({instrument, correction, {mark}, made_for});
}

ReadingInputs Readings::add(const Hydrometer& h, const Correction& correction,
                            const HydrometerReading& reading, const std::string& of,
                            LiquidSurface surface) {
  const HydrometerInputs used = hydrometer(h, correction);
  ReadingInputs added{inputs, used, reading, of, thermometer(reading.temperature), surface};
  remember(reading.temperature, added.temperature_inputs().correction);
  note_use(h, used.correction, {reading.indication, added.indication_input()},
           added.made_for_input());
  return added;
}

RefractionInputs Readings::add(const Refractometer& r, const Correction& correction,
                               const RefractometerReading& reading, const std::string& of) {
  const RefractometerInputs used = refractometer(r, correction);
  RefractionInputs added{inputs, used, reading, of, thermometer(reading.temperature)};
  remember(reading.temperature, added.temperature_inputs().correction);
  note_use(r, used.correction, {reading.indication, added.indication_input()});
  return added;
}

}  // namespace areo::instruments
