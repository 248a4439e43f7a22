// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Results for programs: one JSON object on one line, stable keys with units, numbers unrounded.
#include <string>

#include "areo/calibration/solution.hpp"
#include "areo/measurement/result.hpp"
#include "areo/wording/reported.hpp"

namespace areo::wording {

/// {"<key>": {"value", "standard_uncertainty", "expanded_uncertainty", "unit"}, ..., "notes": []}.
/// The schema is in docs/reference/json.md. Bytes that are not valid UTF-8 become U+FFFD.
[[nodiscard]] std::string json_line(const measurement::Result& result);
/// The same with what a second evaluation found: "sampling"; "sampling_reason" if nobody asked for
/// it, and "sampling_refused" if it then could not be done.
/// @param state  comes first, under "state"; empty = none
[[nodiscard]] std::string json_line(const ReportedResult& reported, const std::string& state = {});
/// A weighed solution, and what instruments show in it.
/// @param shows  as measurement::describe_solution() gives it
[[nodiscard]] std::string solution_json(const calibration::WeighedSolution& weighed,
                                        const measurement::Result& shows);

}  // namespace areo::wording
