// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Readings from somebody's table: which column means what, and every row on its own.
#include <map>
#include <optional>
#include <string>
#include <tuple>
#include <vector>

#include "areo/entry/reading_entry.hpp"
#include "areo/notebook/store.hpp"
#include "areo/text/header_words.hpp"

namespace areo::stream {

/// What a column of a table may mean: batch, bottle, stage, date, time, instrument, reading,
/// temperature, thermometer, degassed, meniscus, person, note, sample
[[nodiscard]] const std::vector<std::string>& import_fields();

/// Lines "their column = field" or "their column = field, unit"; # begins a comment.
/// @throws Error{file} naming the line that cannot be read
[[nodiscard]] std::map<std::string, text::ColumnMeaning> mapping_from_file(const std::string& file);

/// What fields say that a row lacks.
struct ImportDefaults {
  std::string batch, instrument, thermometer, person;
};

/// A row as fields; empty = nothing.
using ImportRow = std::map<std::string, std::string>;

/// A row that can be noted, with the name of its sample; rows of one sample are repeats.
struct ImportedReading {
  notebook::ReadingRecord record;
  std::string sample;  ///< empty: a sample of its own
};
/// @param failed_field  set to the field that the row fails in, if one can be named
/// @throws ParseError, Error as note_reading(); Error{inconsistent} for a row without batch,
///         reading or date
[[nodiscard]] ImportedReading imported_reading(const ImportRow& row, const ImportDefaults& defaults,
                                               const notebook::Notebook& book,
                                               std::string& failed_field);

/// Finds what is in the notebook already. Of equal rows as many are known as the notebook has.
class KnownReadings {
 public:
  explicit KnownReadings(const notebook::Notebook& book) : book_{&book} {}
  /// Whether the reading is in the notebook; each one there stands for one that is asked about.
  [[nodiscard]] bool known(const notebook::ReadingRecord& r);

 private:
  // What was read and when; not when it was noted, nor what was made of it later.
  using Key = std::tuple<std::int64_t, notebook::Id, std::string, notebook::Stage, double,
                         std::optional<double>, instruments::Meniscus, std::optional<bool>,
                         std::string, std::string>;
  static Key key_of(const notebook::ReadingRecord& r);
  const notebook::Notebook* book_;
  std::map<notebook::Id, std::map<Key, int>> left_;  // by batch
};

}  // namespace areo::stream
