// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Words for scales: a name and a unit for people, a key for programs, and the reverse.
#include <string>
#include <string_view>
#include <vector>

#include "areo/physics/scale.hpp"

namespace areo::physics {

/// "SG 20/20 °C", "SG 60/60 °F", "density at 20 °C", "Plato", "Baumé (145, 60/60 °F)".
[[nodiscard]] std::string scale_name(const Scale& scale);
/// Unit behind a value: "", "kg/m³", "°P", "°Bx", "°Bé", "°Oe", "g/L".
[[nodiscard]] std::string scale_unit(const Scale& scale);
/// Stable key for JSON and CSV: "sg_20_20", "density_20_c_kg_m3", "plato", "baume_145",
/// "sugar_g_l".
[[nodiscard]] std::string scale_key(const Scale& scale);

/// The scales that areo offers when none is named, in the order of its tables.
[[nodiscard]] const std::vector<Scale>& offered_scales();

/// What may stand for a scale in input: "SG", "SG20/20", "sg15/15", "SG60F", "SG20/4", "SGair",
/// "kg/m3", "kg/m3@15C", "P", "plato", "Bx", "brix", "Be", "Be144.3", "Oe", "g/L", a key; case and
/// spaces and a leading degree sign do not matter.
/// @throws ParseError naming what is known
[[nodiscard]] Scale scale_from_word(std::string_view word);

}  // namespace areo::physics
