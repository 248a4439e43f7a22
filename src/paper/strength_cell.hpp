// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// A strength as a cell of a table.
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "areo/analysis/limit.hpp"
#include "areo/paper/grid.hpp"
#include "areo/text/json.hpp"
#include "areo/wording/result_json.hpp"
#include "areo/wording/strength.hpp"

namespace areo::paper {

/// A strength that is not larger than its uncertainty is a bound; where none is computed, nothing.
[[nodiscard]] inline GridCell strength_cell(const measurement::AlcoholResult& a) {
  if (!a.has_strength()) return {};
  GridCell cell{a.result.at(wording::strength_key).value};
  if (a.has_bound_only()) cell.below = analysis::strength_bounds(a).upper;
  return cell;
}

/// The same for programs: its state and its bound between what the cell belongs to and the
/// quantities.
[[nodiscard]] inline std::string cell_json(const measurement::AlcoholResult& a,
                                           std::vector<std::pair<std::string, std::string>> head) {
  head.emplace_back("state", text::json_string(wording::word(a.state)));
  for (auto& member : wording::bound_members(a)) head.push_back(std::move(member));
  return wording::json_line(a.result, head);
}

/// Nothing if all of the extract fermented would not be enough: one reading may be that low by its
/// uncertainty, but a table has no reading.
[[nodiscard]] inline std::optional<measurement::AlcoholResult> possible(
    measurement::AlcoholResult a) {
  if (a.state != measurement::Fermentation::above &&
      a.result.at("real_extract_percent").value.estimate < 0)
    return std::nullopt;
  return a;
}

}  // namespace areo::paper
