#pragma once
// Collects the inputs of one or two readings, so that what instruments share is entered once.
#include <optional>
#include <string>

#include "areo/instruments/reading.hpp"
#include "areo/measurement/correct.hpp"

namespace areo::measurement {

class Readings {
 public:
  /// Adds a reading and, unless an earlier reading used the same instrument or thermometer, the
  /// inputs of these.
  [[nodiscard]] instruments::ReadingInputs add(const Calibrated& instrument,
                                               const instruments::HydrometerReading& reading,
                                               const std::string& of);
  uncertainty::Inputs inputs;

 private:
  std::optional<instruments::HydrometerInputs> hydrometer_;
  std::optional<instruments::CorrectionInputs> thermometer_;
  std::string thermometer_name_;
};

/// The unfermented liquid that a reading stands for.
[[nodiscard]] ExtractFraction extract_at(const instruments::ReadingInputs& reading,
                                         const uncertainty::Point& x);
/// @throws Error{domain} if no liquid of sugar and water makes the instrument show that at its
///         temperature, with the ends of what it could show
void require_sugar_liquid(const Calibrated& instrument,
                          const instruments::HydrometerReading& reading,
                          const instruments::ReadingInputs& inputs, const uncertainty::Point& x);

/// What a reader of the result has to know about one reading.
void add_notes(std::vector<std::string>& notes, const Calibrated& instrument,
               const instruments::HydrometerReading& reading, const std::string& of);

}  // namespace areo::measurement
