// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// A typed value of any scale, and what it is on others.
#include <string>
#include <vector>

#include "areo/measurement/convert.hpp"
#include "areo/physics/scale.hpp"

namespace areo::entry {

/// What a value is to be converted to.
struct ConvertTo {
  std::vector<physics::Scale> scales;
  std::vector<measurement::Beside> beside;  ///< behind the scales
  bool stated = false;                      ///< else it is all that there is
};
/// Separated by commas: scales, "nD" for the refractive index at 20 °C, "potential" for alcohol.
/// @throws ParseError for any other word
[[nodiscard]] ConvertTo convert_to_from_text(const std::string& text);

struct Converted {
  measurement::Result result;
  std::string of;         ///< what the numbers are about
  std::string echo;       ///< how the text was understood, if not as typed
  bool strength = false;  ///< "%vol", "%mass": it converts to strengths only
};
inline constexpr const char* strengths_only = "a strength converts to strengths only";

/// @throws ParseError, Error{domain} as text::mark_from_text() and measurement::convert()
[[nodiscard]] Converted converted(const std::string& text, const ConvertTo& to);

}  // namespace areo::entry
