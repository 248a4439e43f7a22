#pragma once
// What the extract of a drink consists of, by the word that people use for it.
#include <string>

#include "areo/measurement/refract.hpp"
#include "bench.hpp"
#include "command_line.hpp"

namespace areo::cli {

/// Options that say it.
struct ExtractOptions {
  std::string extract;  ///< a word: "sucrose", "malt", ...
  std::string liquid;   ///< a liquid in the notebook, with a factor of its own
};
void add_extract_options(const Command& command, ExtractOptions& options);

/// A kind by its word; mixed if empty.
/// @throws ParseError naming the nearest word
[[nodiscard]] measurement::ExtractKind extract_from_word(const std::string& word);
/// @throws UsageError for both options, ParseError for an unknown word, Error{store} for a liquid
/// of
///         which no pair was read
[[nodiscard]] measurement::ExtractKind extract_kind(const ExtractOptions& options, Bench& bench);

}  // namespace areo::cli
