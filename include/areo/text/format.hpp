// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Numbers and lines for people.
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

#include "areo/uncertainty/monte_carlo.hpp"
#include "areo/uncertainty/propagate.hpp"

namespace areo::text {

/// Decimal place of the second significant digit of an expanded uncertainty: 2 for 0.30, 0 for 12,
/// -1 for 146, where the tens are the last digit that means something. 0 if there is none.
[[nodiscard]] int last_place(double expanded);
/// The same for formats that know no negative decimals: last_place(), but never below 0.
[[nodiscard]] int supported_decimals(double expanded);

/// A number with fixed decimals: "0.00" whatever the sign of a value that rounds to zero.
/// @param decimals  below zero rounds to tens, hundreds, ...: fixed(146, -1) is "150"
[[nodiscard]] std::string fixed(double value, int decimals);

/// An upper bound, rounded up: it is never printed lower than it is. Beside a limit it takes as
/// many decimals as keep both on the sides that they are on.
/// @param decimals  at least, as for fixed()
[[nodiscard]] std::string rounded_up(double bound, int decimals,
                                     const std::optional<double>& limit = std::nullopt);

/// A lower bound, rounded down: it is never printed higher than it is.
[[nodiscard]] std::string rounded_down(double bound, int decimals);

/// Digits beyond those that an uncertainty supports, where all digits are asked for.
inline constexpr int further_digits = 6;

/// "1.0494 ± 0.0011", "4.98 ± 0.30 % vol", "0 ± 150 g/L": rounded to the second digit of U. With
/// `full` six further digits. A value without uncertainty is printed as it is.
[[nodiscard]] std::string value_text(const uncertainty::Value& value, std::string_view unit,
                                     bool full = false);

/// "0.31 (0.02 to 0.85) % vol": an estimate and the ends of an interval that need not be as far to
/// both sides, rounded to the second digit of half its width.
[[nodiscard]] std::string interval_text(double estimate, const uncertainty::Interval& interval,
                                        std::string_view unit, bool full = false);
/// "0.02 to 0.85 % vol", the same without an estimate.
[[nodiscard]] std::string interval_text(const uncertainty::Interval& interval,
                                        std::string_view unit, bool full = false);

/// "60 000"
[[nodiscard]] std::string count_text(std::size_t count);

/// "ADD 0.0014", "SUBTRACT 0.0014", "ADD NOTHING": the sign in words, for a hand that does the sum.
/// @param decimals to which the number is rounded, as for fixed()
[[nodiscard]] std::string instruction(double correction, int decimals, std::string_view unit = "");

/// The same with what it is done to: "SUBTRACT 0.0014 from every reading", "ADD NOTHING to ...".
[[nodiscard]] std::string instruction(double correction, int decimals, std::string_view unit,
                                      std::string_view reading);

/// The text with control characters, and bytes that are not valid UTF-8, each replaced by a visible
/// mark, so that a name can never drive a terminal. Line ends are control characters too.
[[nodiscard]] std::string printable(std::string_view text);

/// Columns that a UTF-8 text takes on a terminal: two of an East Asian character, none of a mark
/// on another one.
[[nodiscard]] std::size_t display_width(std::string_view utf8);

/// "Ends at 1.009.": words as a sentence of their own.
[[nodiscard]] std::string sentence(std::string_view words);

/// A text of at most so many columns, with an ellipsis for what is left out.
[[nodiscard]] std::string shortened(std::string_view utf8, std::size_t most);

/// Decimals that multiples of a step need: 0 for 1 and 5, 1 for 0.1 and 0.5.
/// @param step  > 0
[[nodiscard]] int decimals_of_step(double step);

/// An indication with the decimals that its scale's division asks for: 1.08 on 0.002 -> "1.080".
[[nodiscard]] std::string indication_text(double indication, double division);

/// A temperature for a sentence, to hundredths: "27 °C", "21.5 °C".
[[nodiscard]] std::string celsius_text(double c);

}  // namespace areo::text
