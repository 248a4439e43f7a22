// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// What a ferment's history says, in sentences.
#include <optional>
#include <string>
#include <vector>

#include "areo/trend/history.hpp"
#include "areo/trend/passing.hpp"
#include "areo/trend/stated_end.hpp"
#include "areo/wording/limit.hpp"

namespace areo::wording {

/// A word for programs.
[[nodiscard]] const char* word(trend::Phase p);
/// "ACTIVE, down 0.0085 ± 0.0013 in 24 hours"
[[nodiscard]] std::string state_text(const trend::History& h,
                                     const std::optional<double>& expected);
/// What was read, and what follows from it, below the names of the columns.
/// @param shown  numbers of points, of History::shown
[[nodiscard]] std::vector<std::vector<std::string>> point_rows(
    const trend::History& h, const std::vector<std::size_t>& shown, bool full);
/// Between which gravities it ends, and when it can be called steady; or why there is no outlook.
[[nodiscard]] std::vector<std::string> outlook_lines(const trend::History& h, bool full);
/// Why a reading is odd, and what to do.
[[nodiscard]] std::string odd_text(const trend::History& h, const trend::Outlier& o);
/// One sentence for each odd reading, and one where all scatter more than stated.
[[nodiscard]] std::vector<std::string> odd_notes(const trend::History& h);
/// "under 0.5 % vol? No: it passed it between 2026-03-04 18:00 and 2026-03-05 10:00"
[[nodiscard]] std::string limit_text(batch::Batch& batch, const trend::History& h,
                                     const trend::Passing& p);
/// That, and when it passed the limit by the readings and by the curve.
[[nodiscard]] std::vector<std::string> passing_lines(batch::Batch& batch, const trend::History& h,
                                                     const trend::Passing& p);
/// For every page about a drink that may go on.
inline constexpr const char* pressure_caution =
    "What sugar is left can still make pressure in a closed bottle, however steady it seems; the "
    "rating of the bottle's maker rules.";
/// Where a steady ferment is no end.
inline constexpr const char* steady_caution =
    "steady is no promise: what sugar is left can still make pressure in a closed bottle; its "
    "maker's rating rules";
/// What to do next.
[[nodiscard]] std::string next_text(const trend::History& h, const std::optional<double>& expected,
                                    const std::string& batch);

/// What came later than a reading and could not be computed is no reason to forget it: a sentence
/// each.
[[nodiscard]] std::vector<std::string> refused_since(const trend::History& h,
                                                     const batch::Point& last);

}  // namespace areo::wording
