// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// What people type as an amount of something.
#include <string_view>

namespace areo::text {

/// A mass with half of its last digit, both in g.
struct TypedMass {
  double value, half_width;
};
/// As grams_from_text().
[[nodiscard]] TypedMass mass_from_text(std::string_view text);

/// Which of both an amount is, by its unit; "1 gal" is a volume, too.
enum class AmountKind { mass, volume, unknown };
/// @throws ParseError if the text does not begin with a number
[[nodiscard]] AmountKind amount_kind(std::string_view text);

}  // namespace areo::text
