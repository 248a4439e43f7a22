#pragma once
// One check of an instrument: what it showed against what it should have shown.
#include <string>

#include "areo/calibration/solution.hpp"
#include "areo/core/units.hpp"
#include "areo/instruments/hydrometer.hpp"
#include "areo/instruments/reading.hpp"
#include "areo/instruments/thermometer.hpp"
#include "areo/uncertainty/propagate.hpp"

namespace areo::calibration {

/// Outcome of a check, all in the unit of the instrument's scale.
struct Check {
  std::string label;              ///< "water 21 °C"
  double indication = 0;          ///< what the instrument showed (read level, no correction)
  uncertainty::Value expected;    ///< what an error-free instrument should have shown
  uncertainty::Value correction;  ///< expected minus indication: what has to be added
};

/// In clean water. The instrument need not show 1.000: its scale and reference temperature decide.
/// @throws Error{domain} if the indication is not on the scale or the water not within 0 °C .. 40
/// °C
[[nodiscard]] Check check_in_water(const instruments::Hydrometer& h,
                                   const instruments::HydrometerReading& reading);

/// In a weighed solution of sugar or salt.
[[nodiscard]] Check check_in_solution(const instruments::Hydrometer& h,
                                      const instruments::HydrometerReading& reading,
                                      const WeighedSolution& solution);

/// A point of a certificate: at the nominal mark add `correction`, known to ± `expanded`.
/// @param k coverage factor of the certificate
/// @throws  Error{domain} unless expanded > 0 and k >= 1
[[nodiscard]] Check certificate_point(double nominal, double correction, double expanded, double k);

/// A thermometer in crushed melting ice of clean water: 0.00 °C, within ± 0.1 °C as a kitchen makes
/// it (0.01 °C is easily reached in a laboratory).
[[nodiscard]] Check check_in_ice(const instruments::Thermometer& thermometer, double indication_c,
                                 double half_width_c);

/// A thermometer in boiling water. Give the station pressure, not the one reduced to sea level.
/// @param pressure       absolute
/// @param half_width_pa  how well it is known; an altitude alone leaves ± 2 kPa of weather
[[nodiscard]] Check check_in_boiling_water(const instruments::Thermometer& thermometer,
                                           double indication_c, double half_width_c,
                                           Pressure pressure, double half_width_pa);
inline constexpr double weather_half_width_pa = 2000;
/// A barometer at the place, or one typed from a screen: ± 0.2 kPa.
inline constexpr double barometer_half_width_pa = 200;

}  // namespace areo::calibration
