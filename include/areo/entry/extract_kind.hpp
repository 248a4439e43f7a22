// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// What the extract of a drink consists of, by the word that people use for it.
#include <string>

#include "areo/measurement/refract.hpp"
#include "areo/notebook/store.hpp"

namespace areo::entry {

/// As typed; empty = not given. One of them at most.
struct ExtractWords {
  std::string extract;  ///< a word: "sucrose", "malt", ...
  std::string liquid;   ///< a liquid in the notebook, with a factor of its own
};

/// A kind by its word; mixed if empty.
/// @throws ParseError naming the nearest word
[[nodiscard]] measurement::ExtractKind extract_from_word(const std::string& word);
/// @throws Error{store} for a liquid of which no pair was read
[[nodiscard]] measurement::ExtractKind extract_of_liquid(const notebook::Notebook& book,
                                                         const std::string& liquid);

}  // namespace areo::entry
