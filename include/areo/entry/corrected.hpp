// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// A typed hydrometer reading, and what it means.
#include <string>
#include <vector>

#include "areo/entry/reading_resolver.hpp"

namespace areo::entry {

/// As typed; what is not given is empty.
struct TypedGravity {
  std::string reading, temperature;
  std::string original, original_temperature;  ///< if the sample has fermented
};

struct Corrected {
  TakenReading taken;
  measurement::Result result;  ///< with notes on how the texts were understood
};

/// One reading through the whole chain; the same for a single one and for a row.
/// @throws as ReadingResolver::take() and measurement::correct()
[[nodiscard]] Corrected corrected(ReadingResolver& resolver, const TypedGravity& typed,
                                  const std::vector<physics::Scale>& to);

}  // namespace areo::entry
