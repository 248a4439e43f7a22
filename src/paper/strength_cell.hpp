// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// A strength as a cell of a table.
#include <optional>
#include <string>
#include <utility>

#include "areo/analysis/limit.hpp"
#include "areo/paper/grid.hpp"
#include "areo/wording/strength.hpp"
#include "text/json_dump.hpp"
#include "wording/result_value.hpp"

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
[[nodiscard]] inline std::string cell_json(const measurement::AlcoholResult& a, text::Json head) {
  head["state"] = wording::word(a.state);
  wording::add_bound(head, a);
  return wording::json_line(a.result, std::move(head));
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
