#pragma once
// Valid range of a model, and the one way to refuse what lies outside.
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

namespace detail {
[[noreturn]] void throw_outside(const Range& range, double v);
}

/// Does nothing inside the range.
/// @throws Error{domain} outside it and for NaN:
///         "water density is valid 0 °C to 40 °C [tanaka2001]; got 55 °C"
constexpr void require(const Range& range, double v) {
  if (!range.contains(v)) detail::throw_outside(range, v);
}

}  // namespace areo
