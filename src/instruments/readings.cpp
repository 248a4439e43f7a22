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

std::optional<CorrectionInputs> Readings::thermometer(const TemperatureReading& t) const {
  if (!t.thermometer || !t.correction) return std::nullopt;
  for (const NamedThermometer& known : thermometers_)
    if (known.name == t.thermometer->name && known.provenance == t.correction->provenance)
      return known.correction;
  return std::nullopt;
}

ReadingInputs Readings::add(const Hydrometer& h, const Correction& correction,
                            const HydrometerReading& reading, const std::string& of) {
  const auto shared = thermometer(reading.temperature);
  ReadingInputs added{inputs, hydrometer(h, correction), reading, of, shared};
  const auto& used = added.temperature_inputs().correction;
  if (used && !shared)
    thermometers_.push_back(
        {reading.temperature.thermometer->name, reading.temperature.correction->provenance, *used});
  return added;
}

}  // namespace areo::instruments
