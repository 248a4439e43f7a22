// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Sugar that was weighed in, where nobody read an original gravity.
namespace areo::measurement {

/// Half-width, relative, of a volume in a kitchen: jugs and jars with marks. Engineering judgement.
inline constexpr double kitchen_volume_half_width = 0.05;

/// White sugar (calibration::white_sugar) weighed into a kitchen volume. Which volume it is makes a
/// difference: 450 g in 5 L of water are 1.0328, made up to 5 L they are 1.0346.
struct WeighedSugar {
  enum class Volume {
    of_water,    ///< the water that it went into
    made_up_to,  ///< all of it together, water added up to a mark
  };
  double sugar_g = 0;       ///< as the balance showed it
  double half_width_g = 1;  ///< of the balance, or as typed; triangular
  double volume_l = 0;      ///< at 20 °C; ± kitchen_volume_half_width, rectangular
  Volume volume = Volume::of_water;
  friend bool operator==(const WeighedSugar&, const WeighedSugar&) = default;
};

}  // namespace areo::measurement
