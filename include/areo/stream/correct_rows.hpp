// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Rows of hydrometer readings, brought to what they mean.
#include <string>
#include <vector>

#include "areo/entry/reading_resolver.hpp"
#include "areo/stream/stream.hpp"

namespace areo::stream {

/// What holds for rows that say nothing else; as typed.
struct CorrectDefaults {
  std::string temperature{}, original{}, original_temperature{};
};

/// @param resolver  must outlive the job
/// @param to        scales to print
/// @throws          what every row would stumble over: ParseError, Error{domain}, Error{store}
[[nodiscard]] StreamJob correct_rows(entry::ReadingResolver& resolver,
                                     const CorrectDefaults& defaults,
                                     const std::vector<physics::Scale>& to);

}  // namespace areo::stream
