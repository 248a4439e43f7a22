// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// What could be done about the uncertainty of a result, and what each measure would gain.
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "areo/measurement/result.hpp"

namespace areo::analysis {

/// Kinds of measures. The effort, in parentheses, is a judgement, no source: about what a repeated
/// reading takes is 1.
enum class Action {
  digit,        ///< type one more digit (1): what is typed is known to a tenth
  repeat,       ///< three readings instead of one (1)
  temperature,  ///< know the temperature to ± 0.2 °C (2)
  check,        ///< check an instrument as calibration::recommended_check() has it (2)
  extract,      ///< name what is dissolved (2): known as well as the least known kind, malt
  finer_scale,  ///< another instrument with half the division (5)
};
[[nodiscard]] double effort(Action action);

/// One measure and what it would gain.
struct Measure {
  Action action;
  std::string words;         ///< "stem-1 checked in water and two weighed sugar solutions"
  std::string changes;       ///< what becomes of the budget, a sentence
  uncertainty::Value after;  ///< the quantity if nothing but this were done
};

/// All measures that the inputs of a result are open to, whatever they gain, by effort. They are
/// computed from the shares:
/// - repeat: u of a reading becomes u / √3, but not less than its step / √12, because averaging
///   cannot see below the steps in which readings are noted [gum] F.2.2.1;
/// - temperature: inputs beyond ± 0.2 °C become that; what a named thermometer is off by stays;
/// - check: offset, slope and what lies outside the checked part are replaced by those of
///   recommended_check(), unless the correction in force is better;
/// - finer_scale: the uncertainty of readings, and that of an error taken as within a division, is
///   halved; what is known of the meniscus and of a temperature compensation stays.
/// Nothing here makes what a method or a formula leaves any smaller.
/// @throws Error{domain} as uncertain_quantity()
[[nodiscard]] std::vector<Measure> measures(const measurement::Result& result,
                                            std::string_view key);

/// How far all measures together reach, and what is then the largest contribution.
struct BestAchievable {
  uncertainty::Value after;
  std::string limit;  ///< name of an input, or of the check of an instrument
  /// The limit is a method: only a better one gets below it, such as a distillation, or a
  /// laboratory.
  bool needs_laboratory = false;
};
[[nodiscard]] BestAchievable best_achievable(const measurement::Result& result,
                                             std::string_view key);

/// The least effort that brings the expanded uncertainty to a target.
struct Plan {
  bool reached = false;
  std::vector<Measure> steps;  ///< none if the result is good enough, or the target out of reach
  double effort = 0;
  uncertainty::Value after;  ///< with all steps; out of reach: the floor
};
/// Looks at all combinations; among equal efforts takes the smallest uncertainty.
/// @param target  expanded uncertainty for about 95 %, unit of the quantity, > 0
/// @throws Error{domain} as uncertain_quantity(), and for a target that is not above zero or NaN
[[nodiscard]] Plan cheapest(const measurement::Result& result, std::string_view key, double target);

}  // namespace areo::analysis
