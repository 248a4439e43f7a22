// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// How a bottle is closed and kept, from what was typed of it.
#include <string>

#include "areo/batch/batch.hpp"
#include "areo/measurement/bottle.hpp"

namespace areo::entry {

/// As typed; what is not given is empty.
struct TypedBottlePlan {
  std::string temperature;  ///< of the drink when it is closed
  std::string storage;      ///< the warmest that it is kept
  std::string headspace;    ///< share without drink: "4%"
  std::string expected;     ///< where it should end
  std::string carbonation;  ///< that is wanted: "5g/L"
  std::string volume;       ///< of drink to be primed
};
/// All but the temperature of the drink.
/// @throws ParseError, Error{domain}
[[nodiscard]] measurement::BottlePlan bottle_plan(const TypedBottlePlan& typed);
/// The temperature that was typed, or that of the last reading.
[[nodiscard]] instruments::TemperatureReading closing_temperature(batch::Batch& batch,
                                                                  const batch::Point& last,
                                                                  const std::string& typed);

}  // namespace areo::entry
