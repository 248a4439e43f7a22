// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// An instrument and what it shows, in words.
#include <optional>
#include <string>

#include "areo/notebook/store.hpp"

namespace areo::wording {

/// "hydrometer, SG 20/20, 0.990 to 1.100, division 0.002"
[[nodiscard]] std::string instrument_text(const notebook::InstrumentRecord& r);
/// All of it, for programs.
[[nodiscard]] std::string instrument_json(const notebook::InstrumentRecord& r,
                                          const std::optional<notebook::Retirement>& retired);
/// Unit of the instrument's scale; may be empty.
[[nodiscard]] std::string unit_of(const notebook::InstrumentRecord& r);
/// An indication with the decimals of the instrument's scale, and its unit.
[[nodiscard]] std::string shown(const notebook::InstrumentRecord& r, double indication);

/// Whether a correction rests on checks at one place of the scale: one check, or several in one
/// liquid. Nobody checked what it is anywhere else.
[[nodiscard]] bool checked_at_one_place(const instruments::Correction& c);
/// "from 1.001 to 1.083", "at 1.001 only", "from 1.0005 to 1.001 only" in one liquid.
[[nodiscard]] std::string checked_text(const notebook::InstrumentRecord& r,
                                       const instruments::Correction& c);
/// What to do to a reading, and where that was checked: "SUBTRACT 0.00087 from every reading
/// between 1.001 and 1.083", "SUBTRACT 0.0005, checked at 1.0005 only".
/// @param correction  the same, as printed, wherever c was checked
/// @param decimals    to which it is rounded
/// @param condition   " at 20 °C", or nothing
[[nodiscard]] std::string instruction_where_checked(const notebook::InstrumentRecord& r,
                                                    const instruments::Correction& c,
                                                    double correction, int decimals,
                                                    const std::string& condition = "");

}  // namespace areo::wording
