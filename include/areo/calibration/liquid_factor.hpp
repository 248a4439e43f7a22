// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// How strongly the extract of a given liquid refracts (a juice, a wort), from samples read with a
// refractometer and a hydrometer before they ferment.
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "areo/instruments/readings.hpp"
#include "areo/physics/refraction.hpp"
#include "areo/uncertainty/propagate.hpp"

namespace areo::calibration {

/// One unfermented sample read with both instruments.
struct PairedReading {
  instruments::Refractometer refractometer;
  instruments::Correction refractometer_correction;
  instruments::RefractometerReading refraction;
  instruments::Hydrometer hydrometer;
  instruments::Correction hydrometer_correction;
  instruments::HydrometerReading density;
};

struct LiquidFactor {
  physics::ExtractOptics optics;         ///< of the liquid's extract, relative to sucrose
  std::vector<uncertainty::Value> each;  ///< relative rise by each pair alone, in their order
  double chi_squared = 0;
  /// 95 % point of chi-squared; nothing for a single pair.
  std::optional<double> chi_squared_limit;
  bool consistent = true;  ///< chi-squared is below its limit
  /// What a reader of a result with it has to know: the remarks of all corrections behind it.
  std::vector<std::string> remarks{};
};

/// Least squares over all pairs with their covariance: what the instruments are off by does not
/// average out. If the pairs scatter more than their uncertainties explain, the samples differ, and
/// the uncertainty is widened to the scatter (times the root of chi-squared per degree of freedom).
/// @param pairs at least one, unfermented
/// @throws      Error{domain} for none, for readings off the scales, and for a pair that no extract
///              makes (physics::relative_rise_range)
[[nodiscard]] LiquidFactor liquid_factor(std::span<const PairedReading> pairs);

}  // namespace areo::calibration
