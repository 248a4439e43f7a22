// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// The units of mass, volume and pressure that people have, and what they are in SI.
#include <string_view>

namespace areo::text {

/// What a word says as a unit of one quantity.
struct UnitWord {
  enum class Meaning { unknown, unit, regional, other_quantity };
  Meaning meaning = Meaning::unknown;
  double factor = 0;            ///< of a unit: g, L or Pa in one of it
  std::string_view us{}, uk{};  ///< regional: the two units that it could be, "US gal", "UK gal"
  double us_factor = 0, uk_factor = 0;
};

/// "g", "lb", "ounces", in grams.
/// @source [nist-sp811] the avoirdupois pound is 0.45359237 kg
[[nodiscard]] UnitWord mass_unit(std::string_view word);

/// "L", "mL", "dl", "US gal", "UK fl oz", in litres. The same name is another volume in either
/// country, so without it "gal", "qt", "pt" and "fl oz" are regional; a plain "oz" is a mass.
/// @source [nist-sp811] the US gallon is 231 in³, the imperial one 4.54609 L
[[nodiscard]] UnitWord volume_unit(std::string_view word);

/// "kPa", "hPa", "mbar", "bar", "psi", in Pa.
/// @source [nist-sp811] the pound-force is that of 9.80665 m/s², the inch 2.54 cm
[[nodiscard]] UnitWord pressure_unit(std::string_view word);

}  // namespace areo::text
