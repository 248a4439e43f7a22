// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Rows of an original and a present gravity, as strengths.
#include <optional>
#include <string>

#include "areo/entry/reading_resolver.hpp"
#include "areo/stream/stream.hpp"
#include "areo/wording/limit.hpp"

namespace areo::stream {

/// What holds for rows that say nothing else; as typed.
struct AlcoholDefaults {
  std::string temperature{}, original_temperature{}, present_temperature{}, culture{};
};

/// @param resolver  must outlive the job
/// @param limit     decided on in every row, if there is one
/// @throws          what every row would stumble over: ParseError, Error{domain}
[[nodiscard]] StreamJob alcohol_rows(entry::ReadingResolver& resolver,
                                     const AlcoholDefaults& defaults,
                                     const std::optional<wording::Limit>& limit);

}  // namespace areo::stream
