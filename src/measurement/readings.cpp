#include "readings.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace areo::measurement {
namespace {

void add_once(std::vector<std::string>& notes, std::string note) {
  if (std::find(notes.begin(), notes.end(), note) == notes.end()) notes.push_back(std::move(note));
}

}  // namespace

void add_notes(std::vector<std::string>& notes, const Calibrated& instrument,
               const instruments::HydrometerReading& reading, const std::string& of) {
  const instruments::Correction& c = instrument.correction;
  const std::string& name = instrument.hydrometer.name;
  if (reading.temperature.assumed)
    add_once(notes, fmt::format("no temperature for {}: {:g} °C assumed, ± 5 °C", of,
                                reading.temperature.indication_c));
  if (c.checks == 0)
    add_once(notes,
             fmt::format("{} was never checked: its error is taken as within one division ({:g})",
                         name, instrument.hydrometer.division));
  if (c.beyond(reading.indication) != 0)
    add_once(notes, fmt::format("{:g} is outside the checked part of {} ({:g} to {:g}): the "
                                "correction is used with growing uncertainty",
                                reading.indication, name, c.checked_lo, c.checked_hi));
  if (reading.meniscus == instruments::Meniscus::top && !instrument.hydrometer.meniscus_height)
    add_once(notes, fmt::format("top of the meniscus: 1.4 divisions added (from memory); measure "
                                "it in a clear liquid and state it for {}",
                                name));
}

}  // namespace areo::measurement
