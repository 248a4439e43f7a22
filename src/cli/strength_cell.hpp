#pragma once
// A strength as a cell of a table.
#include <optional>

#include "areo/measurement/alcohol.hpp"
#include "grid.hpp"
#include "strength.hpp"

namespace areo::cli {

/// A strength that is not larger than its uncertainty is a bound; where none is computed, nothing.
[[nodiscard]] inline GridCell strength_cell(const measurement::AlcoholResult& a) {
  if (a.state == measurement::Fermentation::above) return {};
  return {a.result.at(strength_key).value, a.state != measurement::Fermentation::measured};
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

}  // namespace areo::cli
