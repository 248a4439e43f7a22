// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// What the extract of a drink consists of, as far as it refracts.
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "areo/physics/refraction.hpp"

namespace areo::measurement {

struct ExtractKind {
  std::string name = "sucrose";  ///< for people
  physics::ExtractOptics optics = physics::sucrose_optics;
  std::string provenance = "the sugar that the scale is made for";
  std::vector<std::string> remarks{};  ///< what a reader of a result with it has to know
};

/// A kind by its word: mixed, sucrose, glucose, fructose, invert, maltose, malt. "mixed" refracts
/// as sugar does within 3 %.
/// @return nothing for another word
/// @source [crc102], [simmonds1919]
[[nodiscard]] std::optional<ExtractKind> extract_kind_from_word(std::string_view word);
[[nodiscard]] std::vector<std::string> extract_words();

}  // namespace areo::measurement
