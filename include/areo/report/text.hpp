#pragma once
// Numbers and lines for people.
#include <cstddef>
#include <string>
#include <string_view>

#include "areo/uncertainty/propagate.hpp"

namespace areo::report {

/// Decimals that an expanded uncertainty supports: its second significant digit, never negative.
[[nodiscard]] int supported_decimals(double expanded);

/// "1.0494 ± 0.0011", "4.98 ± 0.30 % vol": rounded to the second digit of U. With `full` six
/// further digits. A value without uncertainty is printed as it is.
[[nodiscard]] std::string value_text(const uncertainty::Value& value, std::string_view unit,
                                     bool full = false);

/// "ADD 0.0014", "SUBTRACT 0.0014", "ADD NOTHING": the sign in words, for a hand that does the sum.
/// @param decimals to which the number is rounded
[[nodiscard]] std::string instruction(double correction, int decimals);

/// The text with control characters replaced by a visible mark, so that a name can never drive a
/// terminal. Line ends are control characters too.
[[nodiscard]] std::string printable(std::string_view text);

/// Columns that a UTF-8 text takes on a terminal, counted in characters (areo prints no wide ones).
[[nodiscard]] std::size_t display_width(std::string_view utf8);

/// An indication with the decimals that its scale's division asks for: 1.08 on 0.002 -> "1.080".
[[nodiscard]] std::string indication_text(double indication, double division);

/// A temperature for a sentence: "27 °C", "21.5 °C".
[[nodiscard]] std::string celsius_text(double c);

}  // namespace areo::report
