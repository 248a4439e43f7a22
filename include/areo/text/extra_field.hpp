// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// A word or a number for programs, beside the quantities.
#include <optional>
#include <string>

namespace areo::text {

/// Without either there is nothing to say: an empty cell, and no member of an object.
struct ExtraField {
  std::string word;
  std::optional<double> number{};
  [[nodiscard]] bool empty() const { return word.empty() && !number; }
  /// In a CSV file; a number unrounded.
  [[nodiscard]] std::string cell() const;
};

}  // namespace areo::text
