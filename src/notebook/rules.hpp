// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// What holds of every row, whether somebody typed it or a file brought it.
#include <functional>
#include <optional>
#include <span>
#include <vector>

#include "areo/notebook/store.hpp"

namespace areo::notebook {

/// Of a single row: its numbers are finite, its own number can be followed by others, and its
/// moments can be read and agree with their seconds.
/// @param cells  in order of the table's columns
/// @throws Error{store} that names the row
void require_plain(const std::string& path, const Table& table, const std::vector<Cell>& cells);

/// Whether a row came just now.
using IsNew = std::function<bool(const char* table, Id)>;
/// Of all rows together: what each new one says of an instrument, a check, a batch or a reading
/// could have been typed, and what follows each other in a batch could have.
/// @throws Error{store} that names the row
void require_plausible(const Notebook& notebook, const std::string& path, const IsNew& is_new);

/// The same of what is about to be noted, so that an export of it goes back. Of readings only what
/// no model asks of them: they are computed before they are noted.
/// @throws Error that says what cannot be
void require_typed(const Notebook& notebook, const InstrumentRecord& r);
void require_typed(const Notebook& notebook, const CheckRecord& r);
void require_typed(const Notebook& notebook, const AdditionRecord& r);
void require_typed(const Notebook& notebook, const LiquidPairRecord& r);
void require_typed(const Notebook& notebook, std::span<const ReadingRecord> sample);
void require_typed_volume(const std::optional<double>& litres);

}  // namespace areo::notebook
