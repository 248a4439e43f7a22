// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// What people type, read once and strictly: numbers, units, scales. Every refusal says where, why
// and what to write instead.
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "areo/core/units.hpp"
#include "areo/physics/scale.hpp"

namespace areo::text {

/// A number in front of a unit. "1,050kg/m3" -> 1.050, "kg/m3".
struct TypedNumber {
  double value = 0;
  double half_width = 0;  ///< half of the last digit that was typed
  int decimals = 0;
  bool decimal_comma = false;
  std::string unit;  ///< what follows, without spaces around it; may be empty
  std::size_t unit_position = 0;
};
/// @param what for messages: "a temperature"
/// @throws ParseError if the text does not begin with a decimal number
[[nodiscard]] TypedNumber number_with_unit(std::string_view text, std::string_view what);

/// A value on a scale as typed.
struct TypedMark {
  physics::Scale scale;
  double value = 0;
  double half_width = 0;      ///< half of the last digit that was typed, in the unit of the scale
  std::string echo;           ///< "read as 1.050" if it was not typed so; else empty
  bool in_thousands = false;  ///< a specific gravity typed as 1048
};
/// Reads "1.048", "1048", "1,048", ".998", "12.5P", "-1.5Bx", "6.5Be", "1048kg/m3", "1.048SG60F".
/// @param own  the scale of a named instrument: numbers without a unit are then on that scale, and
///             another scale is refused
/// @throws ParseError for slipped decimals, bare numbers that could mean several things, "%"
/// @throws Error{domain} for a value that no sugar liquid has, with the ends of the scale
[[nodiscard]] TypedMark mark_from_text(std::string_view text,
                                       const std::optional<physics::Scale>& own = std::nullopt);
/// A gravity typed as where a ferment should end, SG 20/20; nothing if empty.
/// @throws ParseError as mark_from_text()
[[nodiscard]] std::optional<double> expected_end_from_text(const std::string& text);

/// A step on the scale of `mark` and in its notation: "0.5", "0.5P"; "2" for 0.002 between 1000 and
/// 1010.
struct TypedStep {
  double value;
  int decimals;
};
/// @throws ParseError for the unit of another scale, and unless it is above zero
[[nodiscard]] TypedStep step_from_text(std::string_view text, const TypedMark& mark);
/// Ends of a scale for sugar liquids: what the density formula allows, "0.963 to 1.444".
[[nodiscard]] std::string reach_text(const physics::Scale& scale, double lo, double hi);

/// A scale by its name, as physics::scale_from_word().
/// @throws ParseError for an unknown name, and for a reference temperature without a known density
[[nodiscard]] physics::Scale scale_from_text(std::string_view text);
/// Comma-separated scales, each once, e.g. "SG,P,kg/m3"; `fallback` if empty.
/// @throws ParseError as scale_from_text()
[[nodiscard]] std::vector<physics::Scale> scales_from_text(
    const std::string& text, const std::vector<physics::Scale>& fallback);

/// "27C", "80F", "300K"; a bare number is refused.
[[nodiscard]] double celsius_from_text(std::string_view text);
/// The same for a liquid whose density counts.
/// @throws Error{domain} outside of 0 °C .. 85 °C, with the limits in the unit that was typed
[[nodiscard]] double liquid_celsius_from_text(std::string_view text);
/// The same of a sample that somebody notes: all but the original may hold alcohol.
/// @throws Error{domain} as liquid_celsius_from_text() and physics::require_drink_temperature()
[[nodiscard]] double sample_celsius_from_text(std::string_view text, bool original);
/// A difference of temperature: "0.5C", "1F".
[[nodiscard]] double celsius_difference_from_text(std::string_view text);
/// Half of the last digit typed of a temperature, in °C.
[[nodiscard]] double celsius_half_width(std::string_view text);
/// "500g", "1.2kg", "4oz", "1 lb 4 oz"
[[nodiscard]] double grams_from_text(std::string_view text);
/// "0.75L", "2 dl", "1½ L", "1 US gal", "12 UK fl oz"; without a country "1 gal" is refused
[[nodiscard]] double litres_from_text(std::string_view text);
/// "98.2kPa", "982hPa", "982mbar", "14.2psi"
[[nodiscard]] Pressure pressure_from_text(std::string_view text);
/// What a bottle is rated for, above the pressure outside: "6bar", "600kPa", "0.6MPa", "90psi"
[[nodiscard]] Pressure rating_from_text(std::string_view text);
/// Carbon dioxide in a litre of drink, in g/L: "5g/L", "2.5vol"
[[nodiscard]] double carbonation_from_text(std::string_view text);
/// A share of the bottle's volume with half of its last digit, from percent: "4%"
struct TypedShare {
  double value, half_width;
};
[[nodiscard]] TypedShare headspace_from_text(std::string_view text);
/// "300m"
[[nodiscard]] Length altitude_from_text(std::string_view text);
/// Calls `read` with each part of a list, in order: "1.040,1.050". A refusal of a part shows where
/// in the list it stands.
void each_part(const std::string& list, const std::function<void(const std::string&)>& read);
/// A plain number without unit, or with the given one: "0.002"; "12P" where "P" is the scale's.
[[nodiscard]] double plain_number(std::string_view text, std::string_view what);

}  // namespace areo::text
