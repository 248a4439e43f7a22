// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// What a number without a unit means on an instrument: its scale and range decide, and what a
// person can read there.
#include "areo/instruments/hydrometer.hpp"
#include "areo/instruments/refractometer.hpp"

namespace areo::instruments {

/// A number as it was typed.
struct BareNumber {
  double value = 0;
  int decimals = 0;  ///< digits behind the decimal mark
};

/// As much of an instrument as decides about its numbers.
struct Marks {
  enum class Shows {
    gravity,  ///< specific gravity, by density or in air
    degrees,  ///< any other scale of a hydrometer: Plato, Oechsle, kg/m³, ...
    brix,     ///< a refractometer's
    index,    ///< a refractometer's
  };
  Shows shows = Shows::gravity;
  double lo = 0.900, hi = 1.200;  ///< ends of the scale
  double division = 0;            ///< 0: not known, so that any mark may be read
};
[[nodiscard]] Marks marks_of(const Hydrometer& h);
[[nodiscard]] Marks marks_of(const Refractometer& r);
/// Of a scale on no instrument: specific gravities go from 0.900 to 1.200, as those of drinks do
/// (common practice, no source); other scales have no ends.
[[nodiscard]] Marks marks_of(const physics::Scale& scale);

enum class BareMeaning {
  mark,       ///< what the scale shows
  thousands,  ///< of a gravity scale: 1048 for 1.048
  gravity,    ///< a specific gravity, which this scale does not show
  index,      ///< a refractive index, which this scale does not show
  one,        ///< 1 on a gravity scale: water, or a degree?
  whole,      ///< points, Brix or Plato on a gravity scale
  slipped,    ///< a gravity with its decimal point in the wrong place
  other,      ///< no specific gravity at all
};
struct Bare {
  BareMeaning meaning;
  double value = 0;  ///< the mark; where none is meant, the gravity or index that seems to be
  int decimals = 0;  ///< of `value`
};

/// - On a gravity scale two decimals or more within its range, or within 0.900 .. 1.200, are a mark
///   (off the scale it is the instrument's to refuse); so is 1.0. A thousand times as much is read
///   in thousands. The rest is told apart: 50, 1, 10.50, 1.5, 12.5.
/// - On any other scale a number is a mark unless it looks like a specific gravity and nobody reads
///   such a mark there: it is outside the range, or has three decimals, or two that half a division
///   does not reach. So 1.050 is no Plato, 1.0 is, and 1.05 is where the division is 0.1.
/// - On a Brix scale three decimals between 1.32 and 1.55 are a refractive index.
/// @param n  a finite value with the decimals it was typed with
/// @source   engineering judgement: half a division is what the eye reads
[[nodiscard]] Bare meaning_of_bare(const BareNumber& n, const Marks& marks);

/// Whether a number may be a gravity of a drink, as 1.050 or 1050, by its size alone; for a reading
/// that either of two instruments may have shown.
[[nodiscard]] bool may_be_gravity(double value);

}  // namespace areo::instruments
