// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// All that the notebook knows of an instrument, line by line.
#include <optional>
#include <string>
#include <vector>

#include "areo/notebook/store.hpp"

namespace areo::wording {

/// "retired on 2026-05-01: broke"
[[nodiscard]] std::string retired_text(const notebook::Retirement& r);
/// "stem-1: hydrometer, SG 20/20, 0.990 to 1.100, division 0.002", and whether it is retired.
[[nodiscard]] std::string listed_text(const notebook::InstrumentRecord& r,
                                      const std::optional<notebook::Retirement>& retired = {});
/// The same with its glass and stem, what it shows in water, its checks and its correction now.
[[nodiscard]] std::vector<std::string> instrument_lines(const notebook::Notebook& book,
                                                        const notebook::InstrumentRecord& r);
/// How a new one is checked first: "in clean water at 20 °C it should show 1.000; areo ..."
[[nodiscard]] std::string first_check_text(const notebook::InstrumentRecord& r);

}  // namespace areo::wording
