#pragma once
// The correction of an instrument: what to add to its indication, and how well that is known.
#include <string>
#include <vector>

#include "areo/core/identity.hpp"
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
  /// What a reader of any result with it has to know: "stem-1 was due for a check on 2027-03-01".
  std::vector<std::string> remarks{};

  /// Estimate of b(R).
  [[nodiscard]] double at(double indication) const { return offset + slope * (indication - r0); }
  [[nodiscard]] double uncertainty_at(double indication) const;
  /// Distance outside the checked range, with sign; 0 inside it and if never checked.
  [[nodiscard]] double beyond(double indication) const;
};

/// Whether both are one and the same knowledge of an instrument's error: all but their remarks,
/// which may differ from reading to reading.
[[nodiscard]] bool same_knowledge(const Correction& a, const Correction& b);

/// What is known about an instrument nobody checked: its error is within one division (the usual
/// maximum permissible error, [astm-d1298] and older verification orders), and may differ from one
/// end of the scale to the other by as much. Both rectangular.
/// @param division,lo,hi of the scale, division > 0, lo < hi
[[nodiscard]] Correction never_checked(double division, double lo, double hi);

/// The correction at a moment between two calibrations. Nobody knows the course of the error there;
/// it is taken as if it had jumped from one to the other at a moment as likely as any other:
/// b = (1 - w) b1 + w b2, the straight line in time, and u² = (1 - w) u1² + w u2² + w (1 - w)
/// (b2 - b1)². The last term is the largest variance that a course between b1 and b2 can have about
/// that line, so a gradual drift has less; the others are no smaller than those of values that are
/// fully correlated, ((1 - w) u1 + w u2)².
/// The checked range is what both have in common. If that is less than half of the wider range, the
/// range is the wider one, and what the narrower does not know outside its own counts everywhere.
/// @param before,after  both in the unit of the same scale, each with checks
/// @param weight        part of the time between them that has passed, 0 to 1; the ends give
///                      `before` and `after` themselves
/// @throws Error{domain} for another weight, or a correction that rests on no checks
/// @source mean and variance of a mixture of two distributions; the largest variance by Bhatia and
///         Davis, 2000 (from memory)
[[nodiscard]] Correction interpolated(const Correction& before, const Correction& after,
                                      double weight);

/// A correction as inputs of a model. Every reading of the instrument shares them.
struct CorrectionInputs {
  Correction correction;
  uncertainty::InputRef offset, slope, beyond;

  /// b(R) at a point of the inputs.
  [[nodiscard]] double at(const uncertainty::Point& x, double indication) const;
};
/// Whose correction it is.
struct Whose {
  Identity identity;
  std::string name;  ///< for the names of the inputs
};
/// @param origin  calibration, or thermometer for one that serves another instrument
[[nodiscard]] CorrectionInputs add_correction(
    uncertainty::Inputs& inputs, const Whose& whose, const std::string& unit,
    const Correction& correction, uncertainty::Origin origin = uncertainty::Origin::calibration);

}  // namespace areo::instruments
