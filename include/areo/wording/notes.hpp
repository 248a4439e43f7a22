// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// What a reader of a result has to know, in words.
#include <string>
#include <vector>

#include "areo/measurement/result.hpp"

namespace areo::wording {

/// A note in words: a sentence, or what is said of one reading, so that what holds for several of
/// them can be said once: "1.02" is "outside the checked part of stem-1 (1.001 to 1.01): ...".
struct NoteWords {
  std::string text;       ///< the whole sentence; of a reading what it is
  std::string reading{};  ///< that it is about; empty: a whole sentence
  [[nodiscard]] std::string sentence() const;
};
[[nodiscard]] NoteWords note_words(const measurement::Note& note);

/// Each as a sentence.
[[nodiscard]] std::vector<std::string> sentences(const std::vector<measurement::Note>& notes);
/// The result's own notes.
[[nodiscard]] std::vector<std::string> own_notes(const measurement::Result& result);
/// With those on the method, for whoever sees this result alone, and for programs.
[[nodiscard]] std::vector<std::string> all_notes(const measurement::Result& result);

}  // namespace areo::wording
