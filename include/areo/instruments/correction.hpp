// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// The correction of an instrument: what to add to its indication, and how well that is known.
#include <optional>
#include <string>
#include <vector>

#include "areo/core/identity.hpp"
#include "areo/uncertainty/input.hpp"

namespace areo::instruments {

/// b(R) = offset + slope (R - r0), added to an indication R; all in the unit of the scale.
/// Outside the checked range the correction is still used, with an uncertainty that grows with the
/// distance d from the range: another u_slope_beyond * d.
/// Of a hydrometer b is what makes its scale right in the liquid it was made for. What checks in
/// clean liquids leave open because nobody knows that liquid is kept apart, as u_surface: a reading
/// is off by the same the other way, so it cancels there.
struct Correction {
  double r0 = 0;  ///< chosen so that offset and slope are uncorrelated [gum] H.3.5
  double offset = 0, u_offset = 0;
  double slope = 0, u_slope = 0;
  double checked_lo = 0, checked_hi = 0;
  double u_slope_beyond = 0;
  /// Change of the offset with the surface tension that the scale was made for, times the standard
  /// uncertainty of that; beside u_offset, with its sign.
  double u_surface = 0;
  /// What the instrument may have changed since it was checked: the change between its last two
  /// calibrations, drift_offset + drift_slope (R - r0), is a half-width once as much time has
  /// passed as lay between them, and the part of it that has passed before that (0 to 1).
  double drift_offset = 0, drift_slope = 0, drift_part = 0;
  int checks = 0;          ///< number of checks behind it; 0 = never checked
  std::string provenance;  ///< "2 checks, in force from 2026-03-01"
  /// Of one without checks: the instrument has some, but nothing made of them is in force.
  bool not_in_force = false;
  /// What a reader of any result with it has to know: "stem-1 was due for a check on 2027-03-01".
  std::vector<std::string> remarks{};

  /// Estimate of b(R).
  [[nodiscard]] double at(double indication) const { return offset + slope * (indication - r0); }
  [[nodiscard]] double uncertainty_at(double indication) const;
  /// Half-width of what it may have changed since.
  [[nodiscard]] double drift_at(double indication) const;
  /// Distance outside the checked range, with sign; 0 inside it and if never checked.
  [[nodiscard]] double beyond(double indication) const;
};

/// Whether both are one and the same knowledge of an instrument's error: all but their remarks and
/// the part of a drift, which may differ from reading to reading.
[[nodiscard]] bool same_knowledge(const Correction& a, const Correction& b);

/// What is known about an instrument nobody checked: its error is within one division (the usual
/// maximum permissible error, [astm-d1298] and older verification orders), rectangular, and as the
/// errors of the two ends are both that, it may change along the scale: by sqrt(2/3) of a division
/// (standard uncertainty) from one end to the other.
/// @param division,lo,hi of the scale, division > 0, lo < hi
/// @param length  that the scale takes from end to end; hi - lo unless given, > 0
[[nodiscard]] Correction never_checked(double division, double lo, double hi,
                                       std::optional<double> length = std::nullopt);
/// Its standard uncertainty of the slope.
/// @param division,length of the scale, > 0
/// @throws Error{domain} for other values
[[nodiscard]] double usual_slope(double division, double length);

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
  uncertainty::InputRef offset, slope, beyond, drift;

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
