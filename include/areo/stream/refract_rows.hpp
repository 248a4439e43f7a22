// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Rows of refractometer readings: before or during fermentation, alone or with a hydrometer.
#include <string>
#include <vector>

#include "areo/entry/refraction_resolver.hpp"
#include "areo/stream/stream.hpp"

namespace areo::stream {

/// What holds for rows that say nothing else; as typed.
struct RefractDefaults {
  std::string temperature{}, original{}, original_temperature{};
};

/// @param samples  must outlive the job
/// @param to       further scales of what has not fermented
/// @throws         what every row would stumble over: ParseError, Error{domain}
[[nodiscard]] StreamJob refract_rows(entry::RefractionResolver& samples,
                                     const RefractDefaults& defaults,
                                     const std::vector<physics::Scale>& to);

}  // namespace areo::stream
