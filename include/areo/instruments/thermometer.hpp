// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Thermometers, and the temperature of a reading as an uncertain quantity.
#include <optional>
#include <string>

#include "areo/core/identity.hpp"
#include "areo/core/model_temperature.hpp"
#include "areo/core/range.hpp"
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
  /// Which reading it is, where its inputs are to be known again in other results.
  std::optional<Identity> identity = std::nullopt;
};

/// No temperature was given: the reference temperature of the scale, within ± 5 °C.
[[nodiscard]] TemperatureReading assumed_temperature(Temperature reference);

/// The estimate of a temperature: the indication with the thermometer's correction.
[[nodiscard]] Temperature estimated(const TemperatureReading& r);

/// Accepts a reading's temperature for formulas of this range. Its estimate has to lie within; what
/// it may be instead, a little beyond.
/// @throws Error{domain} if the estimate is outside, or its half-width reaches more than
///         ModelTemperature::most_beyond_c beyond the range
void require_temperature(const Range& range, const TemperatureReading& r);

/// While somebody reads, a hot liquid cools and a cold one warms, and it is not as warm at the
/// bottom as at the top: half-width of what that leaves of the liquid's temperature, whatever the
/// thermometer. 3 % of its distance from a room of 10 °C to 30 °C, and nothing within: 0.9 °C at
/// 60 °C, 1.65 °C at 85 °C.
/// @source engineering judgement, no source: a quarter of a litre in an open jar loses some 2 % of
///         its distance from the room in a minute (1.3 kJ/°C and 0.45 W/°C: 48 minutes),
///         thermometer and stem are read within a minute of each other, and half as much again is
///         for layers
[[nodiscard]] double cooling_half_width_c(double t_c);

/// A temperature as inputs of a model.
struct TemperatureInputs {
  uncertainty::InputRef indication;
  std::optional<CorrectionInputs> correction;
  std::optional<uncertainty::InputRef> cooling{};  ///< only away from the room
  [[nodiscard]] ModelTemperature at(const uncertainty::Point& x) const;
};
/// Adds cooling_half_width_c() too, unless nobody read the temperature.
/// @param of      what was measured, for the name of the input ("the original gravity")
/// @param shared  the correction inputs of the same thermometer if another reading added them
[[nodiscard]] TemperatureInputs add_temperature(
    uncertainty::Inputs& inputs, const std::string& of, const TemperatureReading& reading,
    const std::optional<CorrectionInputs>& shared = std::nullopt);

}  // namespace areo::instruments
