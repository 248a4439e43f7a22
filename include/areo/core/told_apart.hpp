// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Digits that bear out a statement: which of two numbers is the larger must show in print.
#include <string>

namespace areo {

/// Decimal place at which two numbers differ as printed: `place`, or a later one if they round to
/// the same there, at most four later. Rounding keeps the order, so where they differ the
/// larger one is seen to be larger; equal numbers stay at `place`.
/// @param place  decimals; below zero tens, hundreds, ...
[[nodiscard]] int telling_place(double a, double b, int place);

/// "+0.0078 ± 0.018": a value and its expanded uncertainty, two significant digits each; one more
/// of both, up to six, where that would not show whether the value is larger than the uncertainty:
/// "-0.0152 ± 0.0148", not "-0.015 ± 0.015".
[[nodiscard]] std::string beside_expanded(double value, double expanded);

}  // namespace areo
