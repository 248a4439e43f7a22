#pragma once
// The correction of an instrument: what to add to its indication, and how well that is known.
#include <string>

#include "areo/uncertainty/input.hpp"

namespace areo::instruments {

/// b(R) = offset + slope (R - r0), added to an indication R; all in the unit of the scale.
/// Outside the checked range the correction is still used, with an uncertainty that grows with the
/// distance d from the range: another u_slope_beyond * d.
struct Correction {
  double r0 = 0;  ///< chosen so that offset and slope are uncorrelated [gum] H.3.5
  double offset = 0, u_offset = 0;
  double slope = 0, u_slope = 0;
  double checked_lo = 0, checked_hi = 0;
  double u_slope_beyond = 0;
  int checks = 0;          ///< number of checks behind it; 0 = never checked
  std::string provenance;  ///< "2 checks, in force from 2026-03-01"

  /// Estimate of b(R).
  [[nodiscard]] double at(double indication) const { return offset + slope * (indication - r0); }
  [[nodiscard]] double uncertainty_at(double indication) const;
  /// Distance outside the checked range, with sign; 0 inside it and if never checked.
  [[nodiscard]] double beyond(double indication) const;
};

/// What is known about an instrument nobody checked: its error is within one division (the usual
/// maximum permissible error, [astm-d1298] and older verification orders), and may differ from one
/// end of the scale to the other by as much. Both rectangular.
/// @param division,lo,hi of the scale, division > 0, lo < hi
[[nodiscard]] Correction never_checked(double division, double lo, double hi);

/// A correction as inputs of a model. Every reading of the instrument shares them.
struct CorrectionInputs {
  Correction correction;
  uncertainty::InputRef offset, slope, beyond;

  /// b(R) at a point of the inputs.
  [[nodiscard]] double at(const uncertainty::Point& x, double indication) const;
};
/// @param origin  calibration, or thermometer for one that serves another instrument
[[nodiscard]] CorrectionInputs add_correction(
    uncertainty::Inputs& inputs, const std::string& instrument, const std::string& unit,
    const Correction& correction, uncertainty::Origin origin = uncertainty::Origin::calibration);

}  // namespace areo::instruments
