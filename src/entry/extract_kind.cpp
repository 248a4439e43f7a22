// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/entry/extract_kind.hpp"

#include <fmt/format.h>

#include "areo/core/error.hpp"
#include "areo/core/nearest.hpp"
#include "areo/notebook/recompute.hpp"

namespace areo::entry {

measurement::ExtractKind extract_of_liquid(const notebook::Notebook& book,
                                           const std::string& liquid) {
  const auto factor = notebook::liquid_factor(book, liquid);
  return {liquid, factor.optics, "pairs of readings of " + liquid + " in the notebook",
          factor.remarks};
}

measurement::ExtractKind extract_from_word(const std::string& typed) {
  const std::string word = typed.empty() ? "mixed" : typed;
  if (auto kind = measurement::extract_kind_from_word(word)) return *kind;
  const std::vector<std::string> known = measurement::extract_words();
  const std::string near = nearest(word, known);
  throw ParseError{fmt::format("'{}' is not a kind of extract", word), word, 0, word.size(),
                   near.empty() ? fmt::format("one of {}", fmt::join(known, ", "))
                                : fmt::format("did you mean '{}'?", near)};
}

}  // namespace areo::entry
