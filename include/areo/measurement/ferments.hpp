// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// What a fall of gravity makes of a drink, and how far it can go.
#include <optional>

#include "areo/uncertainty/propagate.hpp"

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

/// The lowest gravity that a ferment can come to, SG 20/20: that of a drink whose extract is all
/// gone. Of clean yeast; acids only make it denser.
/// @param original_extract  of the original liquid, % mass, above zero
/// @return      nothing where that drink is stronger than physics::density() covers
/// @uncertainty that of the extract, of Balling's yield, and of the drink's density
/// @source      [balling]; see ferment::ethanol_from_extracts()
/// @check       15 % mass: 0.9886
[[nodiscard]] std::optional<uncertainty::Value> gravity_without_extract(
    const uncertainty::Value& original_extract);

/// Whether a ferment can end where somebody states. It goes down, but no further than the extract
/// lasts; a little above the last reading is the noise of that reading.
/// @param expected_sg       SG 20/20, the end that was stated
/// @param present           gravity of the last reading
/// @param original_extract  as gravity_without_extract(); nothing: not known
/// @throws Error{inconsistent} if it cannot
void require_possible_end(double expected_sg, const uncertainty::Value& present,
                          const std::optional<uncertainty::Value>& original_extract);

}  // namespace areo::measurement
