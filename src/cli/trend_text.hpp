#pragma once
// What the commands about the course of a batch have in common.
#include <optional>
#include <string>

#include "areo/trend/history.hpp"

namespace areo::cli {

/// Of several bottles one has to be named; without any, it is the batch.
/// @throws Error{inconsistent} if there is no such bottle, with those that there are
void require_bottle(const batch::Batch& batch, const std::string& bottle);
/// What was typed for where it should end, as SG 20/20; nothing if nothing was.
/// @throws as mark_from_text()
[[nodiscard]] std::optional<double> expected_from_text(const std::string& text);
/// Steady, but above what was expected by more than the last reading may be off.
[[nodiscard]] bool is_stuck(const trend::History& h, const std::optional<double>& expected);
/// A word for programs.
[[nodiscard]] const char* word(trend::Phase p);

}  // namespace areo::cli
