// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// A hydrometer reading brought to what it means: the scale at its reference temperature, density,
// other scales, and for a fermenting sample its composition.
#include <optional>
#include <span>
#include <string>

#include "areo/instruments/correction.hpp"
#include "areo/instruments/hydrometer.hpp"
#include "areo/instruments/reading.hpp"
#include "areo/measurement/result.hpp"

namespace areo::measurement {

/// A hydrometer with what is known about its error on the day of the reading.
struct Calibrated {
  instruments::Hydrometer hydrometer;
  instruments::Correction correction;

  /// An instrument nobody checked.
  [[nodiscard]] static Calibrated never_checked(const instruments::Hydrometer& h);
};

/// An unfermented sample.
/// Quantities: the instrument's own scale at its reference temperature; "correction", what has to
/// be added to the reading to get there; "density_at_t_kg_m3"; then each of `to`.
/// @param of  names the inputs of the reading, as for alcohol(present, original)
/// Above 40 °C a note says what a degree is worth there, what helps, and what steam would do.
/// @throws Error{domain} for readings off the scale and temperatures outside 0 °C .. 85 °C
[[nodiscard]] Result correct(const Calibrated& instrument,
                             const instruments::HydrometerReading& reading,
                             std::span<const physics::Scale> to,
                             const std::string& of = "the sample");

/// A fermenting sample of known original gravity: the alcohol in it expands more than sugar.
/// Same quantities; sugar scales show the apparent extract. Carries the uncertainty of the method
/// as alcohol() does.
/// @throws Error{domain} for a sample outside 0 °C .. 40 °C; the original may be hot.
///         Error{inconsistent} as ferment::fermented_to_density()
[[nodiscard]] Result correct_fermenting(const Calibrated& instrument,
                                        const instruments::HydrometerReading& reading,
                                        const Calibrated& original_instrument,
                                        const instruments::HydrometerReading& original,
                                        std::span<const physics::Scale> to);

}  // namespace areo::measurement
