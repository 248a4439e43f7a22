#pragma once
// A strength as a cell of a table.
#include "areo/measurement/alcohol.hpp"
#include "grid.hpp"
#include "strength.hpp"

namespace areo::cli {

/// A strength that is not larger than its uncertainty is a bound; where none is computed, nothing.
[[nodiscard]] inline GridCell strength_cell(const measurement::AlcoholResult& a) {
  if (a.state == measurement::Fermentation::above) return {};
  return {a.result.at(strength_key).value, a.state != measurement::Fermentation::measured};
}

}  // namespace areo::cli
