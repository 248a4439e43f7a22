// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// A reading as it was noted, with all that happened to it since.
#include <string>
#include <vector>

#include "areo/notebook/batch.hpp"

namespace areo::wording {

/// The first line says what was typed, those below it what happened to it.
/// @param instrument  its name
/// @param full        with the moment when it was noted
[[nodiscard]] std::vector<std::string> reading_lines(const notebook::ReadingRecord& r,
                                                     const std::string& instrument, bool full);
/// The same for programs.
[[nodiscard]] std::string reading_json(const notebook::ReadingRecord& r,
                                       const std::string& instrument);
/// One that does not count, and why: {"reading", "amended_by", "excluded"}.
[[nodiscard]] std::string left_out_json(const notebook::ReadingRecord& r);
/// {"reading": 7, "excluded": "full of bubbles"}
/// @param what    "reading" or "addition"
/// @param reason  empty: it counts again
[[nodiscard]] std::string excluded_json(const char* what, notebook::Id id,
                                        const std::string& reason);

}  // namespace areo::wording
