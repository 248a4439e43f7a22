// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Valid range of a model, and the one way to refuse what lies outside.
#include <string>
#include <string_view>

namespace areo {

/// Where a model may be used; both ends belong to the range.
struct Range {
  std::string_view quantity;  ///< "water density"
  std::string_view unit;      ///< "°C", printed behind the limits
  double lo, hi;
  std::string_view source;     ///< key in tables/sources.bib
  std::string_view hint = {};  ///< what a person can do about a value outside

  /// NaN and infinities are never inside.
  [[nodiscard]] constexpr bool contains(double v) const noexcept { return v >= lo && v <= hi; }
};

/// A number for a message, without more digits than anybody reads: six at most, or one decimal of a
/// temperature in °C, and no zeros at the end. 170 °F is 76.7 °C there, not 76.66666666666667 °C.
[[nodiscard]] std::string number_text(double v);
[[nodiscard]] std::string celsius_number_text(double celsius);

namespace detail {
[[noreturn]] void throw_outside(const Range& range, double v);
}

/// Does nothing inside the range.
/// @throws Error{domain} outside it and for NaN:
///         "water density is valid 0 °C to 40 °C [tanaka2001]; got 55 °C"; with as many digits
///         of the value as show that it is outside
constexpr void require(const Range& range, double v) {
  if (!range.contains(v)) detail::throw_outside(range, v);
}

}  // namespace areo
