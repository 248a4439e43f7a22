// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Brings a notebook's tables to the version that this program writes.
#include "sqlite.hpp"

namespace areo::notebook {

/// Brings a notebook of an older version up to date, after a copy of the file as it was
/// (`<file>.version-N`); leaves anything else alone. Of several programs that want it at once one
/// does it, and the others wait.
/// @param db  with references between rows not enforced (the default of a connection)
/// @throws Error{store} if the file is no notebook or was written by a newer areo
void prepare(const sqlite::Connection& db);

/// A new, empty notebook at this path. It is there whole or not at all; one that is there stays.
/// @throws Error{file} if it cannot be written
void create(const std::string& path);

/// That the file holds together: its pages, its indexes, and what rows refer to.
/// @throws Error{store} with what was found
void require_intact(const sqlite::Connection& db, const std::string& hint);

/// Error{store} that names the file.
[[noreturn]] void refuse(const std::string& path, std::string_view why, std::string hint);

/// The same of a row: "reading 5".
[[noreturn]] void refuse_unreadable(const std::string& path, const std::string& row);

}  // namespace areo::notebook
