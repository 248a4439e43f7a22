// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// The readings of a measurement, and what a reader of its result has to know about them.
#include <string>
#include <vector>

#include "areo/instruments/readings.hpp"
#include "areo/measurement/correct.hpp"
#include "areo/measurement/refract.hpp"

namespace areo::measurement {

class Readings : public instruments::Readings {
 public:
  [[nodiscard]] instruments::ReadingInputs add(const Calibrated& instrument,
                                               const instruments::HydrometerReading& reading,
                                               const std::string& of) {
    return instruments::Readings::add(instrument.hydrometer, instrument.correction, reading, of);
  }
  [[nodiscard]] instruments::RefractionInputs add(const CalibratedRefractometer& instrument,
                                                  const instruments::RefractometerReading& reading,
                                                  const std::string& of) {
    return instruments::Readings::add(instrument.refractometer, instrument.correction, reading, of);
  }
};

/// The unfermented liquid that a reading stands for.
[[nodiscard]] ExtractFraction extract_at(const instruments::ReadingInputs& reading,
                                         const uncertainty::Point& x);
/// Accepts the temperature of a reading in a drink with alcohol.
/// @throws Error{domain} as physics::require_drink_temperature() and
///         instruments::require_temperature()
void require_drink_temperature(const instruments::TemperatureReading& t);
/// @throws Error{domain} for a temperature beyond physics::mixture_temperature_range, and if no
///         liquid of sugar and water makes the instrument show that at its temperature, with the
///         ends of what it could show
void require_sugar_liquid(const Calibrated& instrument,
                          const instruments::HydrometerReading& reading,
                          const instruments::ReadingInputs& inputs, const uncertainty::Point& x);

/// What a reader of the result has to know about one reading.
void add_notes(std::vector<Note>& notes, const Calibrated& instrument,
               const instruments::HydrometerReading& reading, const std::string& of);
void add_notes(std::vector<Note>& notes, const RefractometerSample& sample, const std::string& of);
/// Those that are not among the notes yet; in words that a calibration came with.
void add_remarks(std::vector<Note>& notes, const std::vector<std::string>& remarks);

}  // namespace areo::measurement
