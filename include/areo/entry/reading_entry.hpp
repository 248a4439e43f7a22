// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// A reading of a batch from what was typed, by whatever way it was typed.
#include <string>
#include <string_view>
#include <vector>

#include "areo/notebook/store.hpp"

namespace areo::entry {

/// Texts as typed; empty = not given.
struct TypedReading {
  std::vector<std::string> shown;  ///< one reading, or repeats of one sample
  std::string temperature, instrument, thermometer, temperature_accuracy, made_at, bottle, degassed,
      person, note;
  bool top = false;
  bool original = false;
};

/// The same with the temperature that stands behind the readings, "1.030 1.031 19C", in its place.
/// @throws ParseError for two temperatures
[[nodiscard]] TypedReading parted(TypedReading typed);

struct NotedReading {
  std::vector<notebook::ReadingRecord> records;  ///< one per reading
  notebook::InstrumentRecord instrument;
  std::vector<std::string> echo;  ///< how texts were understood, if not as typed
};

/// @throws ParseError, Error{domain}, Error{store}: what was typed cannot be noted;
///         Error{inconsistent} if the batch is closed, if an option does not suit the instrument,
///         or if no instrument is named and the notebook has not exactly one hydrometer in use
[[nodiscard]] NotedReading note_reading(const TypedReading& typed,
                                        const notebook::BatchRecord& batch,
                                        const notebook::Notebook& book);

/// The named instrument, or the only hydrometer in use.
[[nodiscard]] notebook::InstrumentRecord instrument_for(const std::string& name,
                                                        const notebook::Notebook& book);
/// @throws Error{inconsistent} if the batch is closed
void require_open(const notebook::BatchRecord& batch, const notebook::Notebook& book);
/// "yes", "no" or nothing.
[[nodiscard]] std::optional<bool> degassed_from_text(const std::string& text);

/// A reading that takes the place of another one: what is not typed stays as it was.
/// @throws as note_reading()
[[nodiscard]] NotedReading amended_reading(TypedReading typed,
                                           const notebook::ReadingRecord& before,
                                           const std::string& reason,
                                           const notebook::Notebook& book);

}  // namespace areo::entry
