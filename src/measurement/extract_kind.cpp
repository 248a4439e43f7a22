// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/measurement/extract_kind.hpp"

#include <algorithm>
#include <array>

namespace areo::measurement {
namespace {

struct Word {
  const char* word;
  physics::ExtractOptics optics;
};
constexpr std::array words{
    Word{"mixed", physics::unknown_extract_optics}, Word{"sucrose", physics::sucrose_optics},
    Word{"glucose", physics::glucose_optics},       Word{"fructose", physics::fructose_optics},
    Word{"invert", physics::invert_sugar_optics},   Word{"maltose", physics::maltose_optics},
    Word{"malt", physics::malt_extract_optics}};

}  // namespace

std::optional<ExtractKind> extract_kind_from_word(std::string_view word) {
  const auto* const found =
      std::find_if(words.begin(), words.end(), [&](const Word& w) { return w.word == word; });
  if (found == words.end()) return std::nullopt;
  return ExtractKind{found->word, found->optics, "[crc102], [simmonds1919]", {}};
}

std::vector<std::string> extract_words() {
  std::vector<std::string> known;
  known.reserve(words.size());
  for (const Word& w : words) known.emplace_back(w.word);
  return known;
}

}  // namespace areo::measurement
