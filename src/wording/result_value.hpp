// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Results, their bounds and failures as values of the JSON library, to stand in larger ones.
#include <cstddef>
#include <string>

#include "areo/calibration/solution.hpp"
#include "areo/core/error.hpp"
#include "areo/wording/reported.hpp"
#include "areo/wording/strength.hpp"
#include "text/json_dump.hpp"

namespace areo::wording {

/// As the public one.
/// @param head  members that come first
[[nodiscard]] std::string json_line(const measurement::Result& result, text::Json head);
/// What a second evaluation found, or why there is none: "sampling", "sampling_reason",
/// "sampling_refused"; nothing where nobody asked.
void add_sampling(text::Json& to, const ReportedResult& reported);
/// bound_facts() under their keys; nothing for states without a bound.
void add_bound(text::Json& to, const measurement::AlcoholResult& a, const BoundWanted& wanted = {},
               const analysis::StrengthSamples& samples = {});
/// "solute", "solute_g", "water_g"
void add_weighed(text::Json& to, const calibration::WeighedSolution& weighed);
/// What failure_json() writes.
[[nodiscard]] text::Json failure_value(const Error& e, std::size_t line, const std::string& note);

}  // namespace areo::wording
