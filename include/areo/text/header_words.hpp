// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// What the words in the header of a table mean: one list for every way in. A column is a field of
// areo, perhaps with a unit that its cells lack.
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "areo/core/date_order.hpp"

namespace areo::text {

/// What a column of a table means.
struct ColumnMeaning {
  std::string field;  ///< e.g. "temperature"; empty: nothing that areo knows
  std::string unit;   ///< of bare numbers, e.g. "C", "P"; empty: as in the cell
};

/// What the cells of a field are. A unit belongs to temperatures and marks only; to dates what
/// stands in its place, the order of day and month.
enum class CellKind { text, temperature, mark, date };
/// @return  text for a field that is none of the others
[[nodiscard]] CellKind kind_of_field(std::string_view field) noexcept;

/// The field that holds the temperature of a reading's: "temperature" of "reading",
/// "original_temperature" of "original"; empty for a field that is no reading.
[[nodiscard]] std::string temperature_field_of(std::string_view field);

/// The meaning of a header: a field's name or a common word for it, with a unit in brackets, behind
/// an underscore or behind a space: "Temperature (°C)", "temp_f", "Temp C", "SG", "Brix". Capitals,
/// spaces, dots, hyphens and underscores in the word do not matter.
/// @param fields  those that are read from the table. A word that may be several, as "gravity", is
///                the first of its fields that is among them
/// @return        an empty field for a header that means none of them. The unit is as it was
///                written, unless it is a well-known word for another; whether there is such a unit
///                is for its reader to say
/// @check  "Temperature (°C)" -> temperature, "°C"; "Brix" -> reading, "Bx"
[[nodiscard]] ColumnMeaning meaning_of(std::string_view header,
                                       std::span<const std::string> fields);

/// The field whose name, or one of whose words, is nearest to a header; empty if none is near.
/// @param misspelt  only so near that the header is hardly another word: at most two letters and
///                  no more than a third of it
[[nodiscard]] std::string nearest_field(std::string_view header,
                                        std::span<const std::string> fields, bool misspelt);

/// "day first", "dd/mm/yyyy", "M/D/Y"; unknown for "yyyy-mm-dd", where nobody has to ask; nothing
/// for a word that says no order.
[[nodiscard]] std::optional<DateOrder> date_order_from_word(std::string_view text);

/// A unit as the numbers of a column carry it: "°c", "celsius" -> "°C"; any other as it is.
[[nodiscard]] std::string unit_from_header(std::string_view text);

/// Whether a cell is a number without a unit.
[[nodiscard]] bool is_bare_number(std::string_view cell) noexcept;
/// A bare number with the unit of its column behind it; any other cell as it is. In a column of
/// specific gravities only what can be nothing else gets its "SG": 1048 and 1.5 stay as they are,
/// so that they are read, and refused, as without.
[[nodiscard]] std::string with_unit(const std::string& cell, const ColumnMeaning& meaning);

}  // namespace areo::text
