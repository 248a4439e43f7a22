#pragma once
// Brings a notebook's tables to the version that this program writes.
#include "sqlite.hpp"

namespace areo::notebook {

/// Creates the tables in an empty file; brings an older version up to date, after a copy of the
/// file as it was (`<file>.version-N`); leaves anything else alone.
/// @param db  with references between rows not enforced (the default of a connection)
/// @throws Error{store} if the file is no notebook or was written by a newer areo
void prepare(const sqlite::Connection& db);

/// Error{store} that names the file.
[[noreturn]] void refuse(const std::string& path, std::string_view why, std::string hint);

}  // namespace areo::notebook
