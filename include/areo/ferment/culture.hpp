// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// What ferments: it decides where the sugar goes.

namespace areo::ferment {

enum class Culture {
  /// Clean yeast: Balling's balance holds, within the scatter of beers against distillation
  /// [tolman1917].
  yeast,
  /// Wild or mixed: part of the sugar becomes lactic and other acids and makes less alcohol, or
  /// none. See most_sugar_to_acids.
  mixed,
  /// With acetic bacteria: they use up alcohol too, so gravity gives an upper bound and no figure.
  /// In a balance of such a drink ethanol, acetic and gluconic acid together account for the carbon
  /// [sievers1995]; ethanol alone does not follow the gravity.
  acetic,
};

/// Share of the fermented sugar that a mixed culture is taken to have made into acids, at most.
/// Engineering judgement; for scale: the heterofermentative way makes half the ethanol (0.256 g
/// instead of 0.511 g per gram of hexose, by atomic masses), so this is as if 30 % of the sugar
/// had gone that way.
inline constexpr double most_sugar_to_acids = 0.15;

}  // namespace areo::ferment
