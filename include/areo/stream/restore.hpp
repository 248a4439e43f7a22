// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// An export, row by row back into a notebook.
#include <functional>
#include <istream>
#include <string>

#include "areo/notebook/store.hpp"

namespace areo::stream {

/// An export in one stream, a row a line.
/// @param file       its name, for messages
/// @param open_book  the notebook that it goes to; called once the file is known to be an export
/// @throws           Error{file} for an export of another version, or one that is not whole
notebook::Restored restore_json(std::istream& in, const std::string& file,
                                const std::function<notebook::Notebook()>& open_book);
/// An export in a folder, one CSV file a table.
notebook::Restored restore_csv(const std::string& folder,
                               const std::function<notebook::Notebook()>& open_book);
/// {"added", "known"}: how many rows.
[[nodiscard]] std::string restored_json(const notebook::Restored& restored);

}  // namespace areo::stream
