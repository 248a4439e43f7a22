// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// An instrument from what was typed of it.
#include <string>

#include "areo/notebook/record.hpp"

namespace areo::entry {

/// As typed; what is not given is empty, and then what is usual on its scale.
struct TypedInstrument {
  std::string name;
  std::string scale;                          ///< "SG", "P", "Bx", "nD"
  std::string from, to, division;             ///< on that scale
  std::string tolerance;                      ///< maximum permissible error
  std::string glass;                          ///< cubic expansion, 1e-6 per °C
  std::string meniscus;                       ///< its height, on the scale
  std::string stem, mass, spacing, made_for;  ///< "5mm", "25g", "1mm" a division, "72mN/m"
  bool compensated = false;                   ///< a refractometer with temperature compensation
  bool also_gravity = false;                  ///< one with a gravity scale beside Brix
};

/// @throws ParseError for texts, Error{domain} for a scale that cannot be
[[nodiscard]] notebook::InstrumentRecord hydrometer_record(const TypedInstrument& typed);
/// @throws Error{inconsistent} for a gravity scale beside an index, too
[[nodiscard]] notebook::InstrumentRecord refractometer_record(const TypedInstrument& typed);
[[nodiscard]] notebook::InstrumentRecord thermometer_record(const TypedInstrument& typed);

}  // namespace areo::entry
