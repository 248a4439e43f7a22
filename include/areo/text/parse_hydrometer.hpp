// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// What people type of a named hydrometer, and the units of a density.
#include <string_view>

#include "areo/instruments/hydrometer.hpp"
#include "areo/text/parse.hpp"

namespace areo::text {

/// A mark as read on this instrument: its scale and range decide what a number without a unit
/// means, see instruments::meaning_of_bare(); another scale is refused.
/// @throws ParseError, Error{domain} as the one of parse.hpp
[[nodiscard]] TypedMark mark_from_text(std::string_view text, const instruments::Hydrometer& own);

/// A density per cubic centimetre, as laboratories write it: "g/cm3", "g/mL".
[[nodiscard]] bool is_grams_per_volume(std::string_view unit);

}  // namespace areo::text
