// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// A typed value of any scale, and what it is on others.
#include <string>
#include <vector>

#include "areo/measurement/convert.hpp"
#include "areo/physics/scale.hpp"

namespace areo::entry {

struct Converted {
  measurement::Result result;
  std::string of;         ///< what the numbers are about
  std::string echo;       ///< how the text was understood, if not as typed
  bool strength = false;  ///< "%vol", "%mass": it converts to strengths only
};
inline constexpr const char* strengths_only = "a strength converts to strengths only";

/// @throws ParseError, Error{domain} as text::mark_from_text() and measurement::convert()
[[nodiscard]] Converted converted(const std::string& text, const std::vector<physics::Scale>& to);

}  // namespace areo::entry
