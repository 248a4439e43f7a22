// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// From checks to a correction: offset or straight line, tested, with a verdict.
#include <optional>
#include <string>
#include <vector>

#include "areo/calibration/check.hpp"
#include "areo/instruments/correction.hpp"
#include "areo/numeric/line.hpp"

namespace areo::calibration {

/// The correction that checks support, and why it looks as it does.
struct CorrectionFit {
  instruments::Correction correction;
  numeric::LineFit line;    ///< the fit behind it
  bool slope_used = false;  ///< the slope stands by itself, and is used as fitted
  /// Part of the slope that the checks show which the correction takes: 1 if it is used; of a usual
  /// one, what its checks are worth beside the usual tolerance; 0 without a slope.
  double slope_weight = 0;
  /// Standard uncertainty that the checks alone leave of a slope, used or not; 0 if they stand at
  /// one place.
  double u_slope_by_checks = 0;
  std::string reason;             ///< why there is, or is not, a slope
  std::vector<double> residuals;  ///< check minus fit, one per check, in scale units
  /// 95 % point of chi-squared for line.degrees_of_freedom; nothing if there are none.
  std::optional<double> chi_squared_limit;
  bool consistent = true;  ///< chi-squared is below its limit
  /// If not consistent: the check without which the others agree best.
  std::optional<std::size_t> suspect;
};

/// The covariance that a fit weighs checks by: a certificate's points as independent.
[[nodiscard]] const numeric::Covariance& weighing(const CheckSet& set);

/// How much of each check's correction the fitted correction at a place is made of.
/// @param slope_weight  part of the slope that is taken, as CorrectionFit::slope_weight; 1 if
///                      CorrectionFit::slope_used, whatever it says
[[nodiscard]] std::vector<double> weights_at(const CheckSet& set, const CorrectionFit& fit,
                                             double slope_weight, double at);

/// Checks that lie closer together than this stand at one place of the scale, as those in one
/// liquid do, whatever the instrument showed.
inline constexpr double one_place_divisions = 3;

/// Least squares with the checks' covariance (numeric::fit_line): what the checks share does not
/// average out.
/// One check gives an offset; two or more a slope as well, known to u. It is weighed against what
/// is usual, u_usual (the slope of an instrument that nobody checked, never_checked()): the slope
/// times u_usual² / (u_usual² + u²), which leaves u u_usual / sqrt(u² + u_usual²). One that is more
/// than usual, beyond 1.96 sqrt(u² + u_usual²), is used as it is, and so is a significant one,
/// beyond 1.96 u, that is known three times better than what is usual. With degrees of freedom left
/// the fit is tested at 95 %: chi-squared of `line` is that about the line of the checks, and,
/// unless that is used, slope² / (u² + u_usual²) as what one more observation adds to it. Points of
/// a certificate are weighed as if independent, and err together as little or as much as makes
/// offset and slope each less certain. Outside the checked range the slope is known by what is
/// usual only: `u_slope_beyond` adds to the unused slope's own uncertainty what makes it that. A
/// fitted slope goes on, with another slope of that size, or of its own uncertainty if that is
/// larger, on top.
/// @param set       at least one check, each with correction.u > 0
/// @param division,length  of the scale, > 0
/// @throws Error{domain} for no checks
[[nodiscard]] CorrectionFit fit_correction(const CheckSet& set, double division, double length);

/// Statement of conformity: with a guard band of the expanded uncertainty on both
/// sides of the limits of error.
enum class Conformity { within, outside, cannot_tell };
/// Judges the correction over its checked range against a maximum permissible error: within if all
/// conformity_points() are, outside if one is.
[[nodiscard]] Conformity judge(const instruments::Correction& c, double maximum_permissible_error);

/// What the verdict rests on, at one place of the scale.
struct ConformityPoint {
  double indication = 0;
  double error = 0;            ///< indication less truth: the correction with the other sign
  double expanded = 0;         ///< U, the width of the guard band
  double least = 0, most = 0;  ///< |error| - U, not below zero, and |error| + U
  Conformity verdict = Conformity::cannot_tell;
};
/// At both ends of the checked range; one if it is a place. That the error runs as a straight line
/// between them, and so is no larger there, is assumed.
/// At a limit of error the risk that the verdict `within`, or `outside`, is wrong is at most
/// 2.5 %.
/// @param maximum_permissible_error  finite, > 0
/// @throws Error{domain} for other numbers, and for a correction that is not finite
/// @source [ilac-g8], the rule with a guard band of U on both sides
[[nodiscard]] std::vector<ConformityPoint> conformity_points(const instruments::Correction& c,
                                                             double maximum_permissible_error);

}  // namespace areo::calibration
