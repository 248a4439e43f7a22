#pragma once
// Thermometers, and the temperature of a reading as an uncertain quantity.
#include <optional>
#include <string>

#include "areo/core/identity.hpp"
#include "areo/core/units.hpp"
#include "areo/instruments/correction.hpp"
#include "areo/uncertainty/input.hpp"

namespace areo::instruments {

/// A thermometer as it is described in the notebook.
struct Thermometer {
  std::string name;               ///< for people; may be empty, and two may have the same
  double lo_c = -10, hi_c = 110;  ///< ends of its scale
  double division_c = 1;          ///< smallest step
  /// Which one it is: a copy is the same instrument, one made anew another, whatever its name.
  Identity identity{};
  friend bool operator==(const Thermometer&, const Thermometer&) = default;
};

/// @throws Error{domain} naming the scale's ends if the indication is outside them, or NaN
void require_on_scale(const Thermometer& t, double indication_c);

/// A temperature as read.
struct TemperatureReading {
  double indication_c = 20;
  double half_width_c = 0.5;  ///< rectangular: ± 0.5 °C for an unknown kitchen thermometer
  std::string provenance = "kitchen thermometer, within ± 0.5 °C";
  std::optional<Thermometer> thermometer;  ///< if named, with
  std::optional<Correction> correction;    ///< the correction in force
  bool assumed = false;                    ///< nobody read it
};

/// No temperature was given: the reference temperature of the scale, within ± 5 °C.
[[nodiscard]] TemperatureReading assumed_temperature(Temperature reference);

/// A temperature as inputs of a model.
struct TemperatureInputs {
  uncertainty::InputRef indication;
  std::optional<CorrectionInputs> correction;
  [[nodiscard]] Temperature at(const uncertainty::Point& x) const;
};
/// @param of      what was measured, for the name of the input ("the original gravity")
/// @param shared  the correction inputs of the same thermometer if another reading added them
[[nodiscard]] TemperatureInputs add_temperature(
    uncertainty::Inputs& inputs, const std::string& of, const TemperatureReading& reading,
    const std::optional<CorrectionInputs>& shared = std::nullopt);

}  // namespace areo::instruments
