// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Everything in a notebook, row by row out of it: JSON lines, or a CSV file a table.
#include <cstdint>
#include <functional>
#include <ostream>
#include <string>
#include <string_view>

#include "areo/notebook/store.hpp"

namespace areo::stream {

/// The first line says what it is, and how many rows follow: it ends with the last.
/// @param line  takes each
/// @return      how many rows
std::int64_t export_json(const notebook::Notebook& book,
                         const std::function<void(std::string_view)>& line);
/// One table, its columns named in the first line.
/// @return how many rows
std::int64_t export_csv(const notebook::Notebook& book, const notebook::Table& table,
                        std::ostream& out);
/// {"rows", "file"}: how many rows went where.
[[nodiscard]] std::string exported_json(std::int64_t rows, const std::string& file);

}  // namespace areo::stream
