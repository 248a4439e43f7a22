// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// A pair of readings of one liquid, by refractometer and hydrometer, from what was typed.
#include <string>

#include "areo/batch/expectation.hpp"
#include "areo/notebook/store.hpp"

namespace areo::entry {

/// As typed; what is not given is empty.
struct TypedPair {
  std::string liquid, refraction, gravity, temperature, gravity_temperature;
  std::string refractometer, hydrometer, thermometer, temperature_accuracy, on, note;
  bool top = false;  ///< read at the top of the meniscus
};

/// @throws ParseError, Error{store}, Error{inconsistent} for what cannot be noted
[[nodiscard]] notebook::LiquidPairRecord pair_record(const TypedPair& typed,
                                                     const notebook::Notebook& book);
/// Whether the same was noted a moment before.
[[nodiscard]] batch::Doubts doubts_about(const notebook::LiquidPairRecord& pair,
                                         const notebook::Notebook& book);

}  // namespace areo::entry
