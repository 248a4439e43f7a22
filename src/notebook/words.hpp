// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Words that stand in the file for values, so that a notebook can be read without areo.
#include <fmt/format.h>

#include <string>
#include <string_view>

#include "areo/core/error.hpp"
#include "areo/core/moment.hpp"

namespace areo::notebook {

/// @param words pairs of value and word
template <class Words, class T>
const char* word_of(const Words& words, T value) {
  for (const auto& [v, w] : words)
    if (v == value) return w;
  throw Error{Errc::store, "the notebook has no word for this"};
}

template <class Words>
auto value_of(const Words& words, const std::string& word) {
  for (const auto& [v, w] : words)
    if (word == w) return v;
  throw Error{Errc::store, fmt::format("the notebook holds an unknown word '{}'", word)};
}

/// A moment as it stands in the file.
/// @throws Error{store} if it could not be read back from there
inline std::string stored(Moment m) {
  std::string text = m.text();
  if (moment_from_text(text) != m)
    throw Error{Errc::store, fmt::format("the moment {} cannot be kept", text),
                "say when with --on, and with an offset from UTC"};
  return text;
}

/// What nobody stated is nothing in the file.
template <class Statement>
void bind_unless_empty(Statement& s, const std::string& text) {
  if (text.empty())
    s.null();
  else
    s.bind(std::string_view{text});
}

}  // namespace areo::notebook
