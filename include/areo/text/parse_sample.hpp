// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// What people say in one breath: what an instrument shows, and behind it how warm the sample is.
#include <functional>
#include <string>
#include <string_view>
#include <vector>

namespace areo::text {

/// A reading and its temperature, both as typed; the temperature is empty if none was.
struct ShownAt {
  std::string shown, temperature;
};

/// Gives a bare number the unit that its writer is used to; gives it back as it is if there is
/// none.
using BareTemperature = std::function<std::string(const std::string&)>;

/// Readings, each perhaps with a temperature behind it: "1.018 23C", "1.018 at 73 °F",
/// "1.050 60/60 °F 1.012 60/60 °F 23C", "1.018@23C". Only its unit makes a number a temperature.
/// @throws ParseError for a temperature without a reading, and for two of one reading
[[nodiscard]] std::vector<ShownAt> readings_from_text(std::string_view text);

/// The same where one reading belongs. A text without a temperature comes back as it is.
/// @throws ParseError as readings_from_text(), and for a bare number behind the reading
/// @param bare  what a bare number behind the reading is; empty: refused
[[nodiscard]] ShownAt reading_from_text(std::string_view text, const BareTemperature& bare = {});

/// Readings of which the last one's temperature is everybody's, unless each has its own.
/// @throws ParseError as readings_from_text(), and for one that lacks its temperature while another
///         one in front of it has one
/// @param most  readings: a bare number behind so many is a temperature
/// @param bare  as of reading_from_text()
[[nodiscard]] std::vector<ShownAt> readings_together_from_text(std::string_view text,
                                                               std::size_t most = 0,
                                                               const BareTemperature& bare = {});

}  // namespace areo::text
