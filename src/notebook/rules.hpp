#pragma once
// What holds of every row, whether somebody typed it or a file brought it.
#include <vector>

#include "areo/notebook/store.hpp"

namespace areo::notebook {

/// Of a single row: its numbers are finite, its own number can be followed by others, and its
/// moments can be read and agree with their seconds.
/// @param cells  in order of the table's columns
/// @throws Error{store} that names the row
void require_plain(const std::string& path, const Table& table, const std::vector<Cell>& cells);

/// Of all rows together: what each says of an instrument, a check, a batch or a reading could have
/// been typed.
/// @throws Error{store} that names the row
void require_plausible(const Notebook& notebook, const std::string& path);

}  // namespace areo::notebook
