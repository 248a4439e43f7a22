#pragma once
// What a fall of gravity makes of a drink.

namespace areo::measurement {

/// A fall of gravity as alcohol, and as pressure in a bottle that is closed meanwhile.
struct Made {
  double percent_vol = 0;
  double bar = 0;
};

/// Of a liquid that ferments by Balling's balance, in a bottle with 4 % headspace at 25 °C; the
/// carbon dioxide of sucrose, the most that there is. In proportion to the first thousandth.
/// @param original_sg  SG 20/20, 1.010 .. 1.090: others are taken as the nearest of these
/// @param fall_sg      0 or more
/// @throws Error{domain} for another fall
[[nodiscard]] Made made_by_fall(double original_sg, double fall_sg);

}  // namespace areo::measurement
