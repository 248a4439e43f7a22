// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// What a drop on the prism says: before fermentation, during it, and together with a hydrometer
// reading of the same sample.
#include <span>
#include <string>
#include <variant>
#include <vector>

#include "areo/instruments/refractometer.hpp"
#include "areo/measurement/alcohol.hpp"
#include "areo/measurement/correct.hpp"
#include "areo/measurement/extract_kind.hpp"
#include "areo/measurement/result.hpp"

namespace areo::measurement {

/// A refractometer with what is known about its error on the day of the reading.
struct CalibratedRefractometer {
  instruments::Refractometer refractometer;
  instruments::Correction correction;

  /// An instrument nobody checked.
  [[nodiscard]] static CalibratedRefractometer never_checked(const instruments::Refractometer& r);
};

/// Readings with the instruments they were made with.
struct RefractometerSample {
  CalibratedRefractometer instrument;
  instruments::RefractometerReading reading;
};
struct HydrometerSample {
  Calibrated instrument;
  instruments::HydrometerReading reading;
};
/// The original gravity may have been read with either.
using OriginalSample = std::variant<HydrometerSample, RefractometerSample>;

/// An unfermented sample.
/// Quantities: "extract_percent", the true percent by mass; "correction", what has to be added to a
/// Brix reading to get there (Brix scales only); "density_at_20_c_kg_m3"; "sg_20_20"; then each of
/// `to`.
/// @throws Error{domain} for readings off the scale and temperatures outside 10 °C .. 30 °C
[[nodiscard]] Result refract(const RefractometerSample& sample, const ExtractKind& kind,
                             std::span<const physics::Scale> to);

/// A fermenting sample of known original gravity: one unknown on Balling's line. Quantities and
/// states as alcohol(). An original read with the same refractometer shares its calibration, and
/// either shares the kind of extract.
/// @throws Error{domain} as above; Error{inconsistent} if the present reading is lower than
///         fermenting everything could make it
[[nodiscard]] AlcoholResult refract_fermenting(const RefractometerSample& present,
                                               const OriginalSample& original,
                                               const ExtractKind& kind,
                                               ferment::Culture culture = ferment::Culture::yeast);

/// A refractometer and a hydrometer reading of the same sample: two unknowns, no original gravity
/// needed. Quantities as alcohol() but for the original gravity, which follows from Balling's
/// balance, and the rule of thumb, which needs it read. States: measured; no_change, the alcohol is
/// not larger than its uncertainty; contradiction, the alcohol is below zero by more than its
/// uncertainty. A note says which of the two readings limits the result.
/// @throws Error{inconsistent} if no drink has both readings
[[nodiscard]] AlcoholResult refract_with_hydrometer(const RefractometerSample& refraction,
                                                    const HydrometerSample& density,
                                                    const ExtractKind& kind);

}  // namespace areo::measurement
