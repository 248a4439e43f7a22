// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// What people type for a refractometer: "12.4Bx", "1.3512nD", and "12.4" if the instrument is
// named.
#include <optional>
#include <string>
#include <string_view>

#include "areo/instruments/refractometer.hpp"

namespace areo::text {

struct TypedRefraction {
  instruments::RefractometerScale scale = instruments::RefractometerScale::brix;
  double value = 0;
  double half_width = 0;  ///< half of the last digit that was typed, in the unit of the scale
  std::string echo;       ///< how it was understood, if not as typed; else empty
};
/// The unit, in any spelling, that says Brix, or a refractive index.
[[nodiscard]] bool says_brix(std::string_view unit);
[[nodiscard]] bool says_index(std::string_view unit);

/// @param own  a named instrument: numbers without a unit are then on its scale, and another scale
///             is refused. A bare specific gravity is taken back to Brix if it has such a scale.
/// @throws ParseError for bare numbers that could mean several things, other scales and "%"
[[nodiscard]] TypedRefraction refraction_from_text(
    std::string_view text, const std::optional<instruments::Refractometer>& own = std::nullopt);

}  // namespace areo::text
