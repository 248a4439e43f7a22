// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// The columns of a table as fields of areo: none is ignored in silence.
#include <functional>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "areo/text/header_words.hpp"

namespace areo::text {

/// What a table is read for.
struct ColumnRules {
  std::vector<std::string> fields;     ///< that are read
  std::vector<std::string> needed;     ///< those of them that the table must have
  std::vector<std::string> described;  ///< further ones that go along unread: "batch", "note"
  std::vector<std::string> keep;  ///< columns, as they are called, that go along whatever they are
  std::map<std::string, std::string> units;     ///< of bare numbers, by column or by field
  std::string temperature_unit;                 ///< of bare numbers, where nothing else says it
  std::map<std::string, ColumnMeaning> mapped;  ///< columns whose meaning was said
  /// Whether a unit is one of such cells.
  std::function<bool(CellKind, std::string_view)> knows_unit;
  /// Columns of unknown words are left out, unless they are likely to be misspelt.
  bool leave_out = false;
  std::string map_hint;        ///< how to say what a column means, if that can be said
  std::string both_mean_hint;  ///< what to do about two columns of one field
};

/// "temperatures without a unit are in °F, as areo settings say"
[[nodiscard]] std::string usual_unit_words(const ColumnRules& rules);

/// The same without --keep and units of columns that are not there: for objects, of which each has
/// its own.
[[nodiscard]] ColumnRules rules_about(const ColumnRules& rules,
                                      const std::vector<std::string>& headers);

class Columns {
 public:
  /// @param headers  of the table, none twice
  /// @param file     for messages
  /// @throws Error{file} for a needed field without a column; for columns that mean nothing here,
  ///         naming them, what is known and what is near; for two columns that mean the same; for a
  ///         column of `keep` or `units` that is not there; for an unknown unit, or one that
  ///         contradicts the header's
  Columns(const std::vector<std::string>& headers, const ColumnRules& rules,
          const std::string& file);

  /// Position of the column that means a field.
  [[nodiscard]] std::optional<std::size_t> find(std::string_view field) const;
  /// Of every column; the field is empty for one that was kept or left out.
  [[nodiscard]] const std::vector<ColumnMeaning>& meanings() const noexcept { return meanings_; }
  [[nodiscard]] bool is_kept(std::size_t column) const { return kept_.at(column); }
  /// Whether a column of temperatures has the unit that is only usual.
  [[nodiscard]] bool has_usual_unit() const noexcept { return has_usual_unit_; }
  /// Columns that mean nothing, where these are left out.
  [[nodiscard]] const std::vector<std::string>& left_out() const noexcept { return left_out_; }

 private:
  std::vector<ColumnMeaning> meanings_;
  std::vector<bool> kept_;
  std::vector<std::string> left_out_;
  bool has_usual_unit_ = false;
};

/// A cell with the unit of its column, see with_unit().
/// @param header  how the column is called
/// @throws ParseError for a temperature without any unit, with a hint how to give one for all rows
[[nodiscard]] std::string cell_with_unit(const std::string& cell, const ColumnMeaning& meaning,
                                         const std::string& header);

/// What somebody said of columns, and the units that areo knows; fields are the command's.
/// @param keep   names of columns that go along unread
/// @param units  "temp=C": of the bare numbers in a column
/// @throws ParseError for one that is not COLUMN=UNIT
[[nodiscard]] ColumnRules rules_as_typed(const std::vector<std::string>& keep,
                                         const std::vector<std::string>& units);

}  // namespace areo::text
