// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Dates and times as people type them, turned into ISO 8601.
#include <optional>
#include <string>
#include <string_view>

#include "areo/core/date_order.hpp"
#include "areo/core/moment.hpp"

namespace areo {

/// Reads "27.11.2026", "27. 11. 2026 18:00", "11/27/2026", "27 Nov 2026", "2026-11-27 6 pm"; with a
/// `present` also "yesterday", "mon 8:30" and "18:00". With dots the day comes first; with slashes
/// and dashes only what can be read in one way is a date, unless the order is known. A weekday is
/// the last one, today counts.
/// @return "2026-11-27" or "2026-11-27T18:00:00"; nothing for a text of another form, ISO 8601 with
///         an offset among them
/// @throws ParseError for a date of two readings, a day that no calendar has, no time of day
[[nodiscard]] std::optional<std::string> iso_from_typed(std::string_view text,
                                                        const std::optional<Moment>& present,
                                                        const DateOrders& orders = {});

/// Whether the text says no day: "18:00".
[[nodiscard]] bool is_time_of_day(std::string_view text);

}  // namespace areo
