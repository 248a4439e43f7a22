#pragma once
// An instrument and what it shows, in words.
#include <string>

#include "areo/notebook/record.hpp"

namespace areo::cli {

/// "hydrometer, SG 20/20, 0.990 to 1.100, division 0.002"
[[nodiscard]] std::string instrument_text(const notebook::InstrumentRecord& r);
/// Unit of the instrument's scale; may be empty.
[[nodiscard]] std::string unit_of(const notebook::InstrumentRecord& r);
/// An indication with the decimals of the instrument's scale, and its unit.
[[nodiscard]] std::string shown(const notebook::InstrumentRecord& r, double indication);

}  // namespace areo::cli
