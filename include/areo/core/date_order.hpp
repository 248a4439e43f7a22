// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Whether 3/4/2026 is the third of April or the fourth of March.
#include <string>
#include <string_view>

namespace areo {

enum class DateOrder { unknown, day_first, month_first };

/// The order of dates with slashes and dashes, and of those with dots, which people who use them
/// write with the day first.
struct DateOrders {
  DateOrder plain = DateOrder::unknown;
  DateOrder dotted = DateOrder::day_first;
};

/// What one date says of its order: "27/11/2026", with dots "27.11.2026". A part of it stays
/// unknown for other forms, and where both orders are possible.
/// @check "11/27/2026 6 pm" -> plain: month first
[[nodiscard]] DateOrders orders_shown_by(std::string_view text);

/// A date, perhaps with a time, as tables have them, in ISO 8601: every form of
/// past_moment_from_text() but the words that count from today. Of a date that has one reading only
/// the order does not matter.
/// @return  the text as it is, if it has another form
/// @throws  ParseError for a date of two readings whose order is unknown, and for days and times
///          that do not exist
[[nodiscard]] std::string iso_from_table(std::string_view text, const DateOrders& orders);

}  // namespace areo
