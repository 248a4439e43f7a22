// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// What the front door is compared with: the same readings, put together by hand for the rooms
// behind it.
#include "areo/front/instruments.hpp"
#include "areo/front/literals.hpp"
#include "areo/measurement/refract.hpp"

namespace areo {

inline const Hydrometer<Gravity>& front_stem() {
  static const Hydrometer<Gravity> stem{.name = "stem", .lo = 0.990_sg, .hi = 1.100_sg};
  return stem;
}
/// The same instrument for the rooms.
inline measurement::Calibrated inner_stem() {
  static const instruments::Hydrometer stem{.name = "stem"};  // 0.990 to 1.100 by 0.002
  return measurement::Calibrated::never_checked(stem);
}
inline measurement::HydrometerSample inner_reading(double indication, double t_c) {
  instruments::HydrometerReading r;
  r.indication = indication;
  r.temperature.indication_c = t_c;
  return {inner_stem(), r};
}

inline const Refractometer<Brix>& front_prism() {
  static const Refractometer<Brix> prism{.name = "prism", .compensated = true};
  return prism;
}
inline measurement::RefractometerSample inner_refraction(double indication, double t_c) {
  static const instruments::Refractometer prism{.name = "prism", .compensated = true};
  instruments::RefractometerReading r;
  r.indication = indication;
  r.temperature.indication_c = t_c;
  return {measurement::CalibratedRefractometer::never_checked(prism), r};
}

}  // namespace areo
