#pragma once
// The readings of a measurement, and what a reader of its result has to know about them.
#include <string>
#include <vector>

#include "areo/instruments/readings.hpp"
#include "areo/measurement/correct.hpp"

namespace areo::measurement {

class Readings : public instruments::Readings {
 public:
  [[nodiscard]] instruments::ReadingInputs add(const Calibrated& instrument,
                                               const instruments::HydrometerReading& reading,
                                               const std::string& of) {
    return instruments::Readings::add(instrument.hydrometer, instrument.correction, reading, of);
  }
};

/// What a reader of the result has to know about one reading.
void add_notes(std::vector<std::string>& notes, const Calibrated& instrument,
               const instruments::HydrometerReading& reading, const std::string& of);

}  // namespace areo::measurement
