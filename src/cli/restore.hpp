#pragma once
// An export, row by row back into a notebook.
#include <istream>
#include <string>
#include <string_view>

#include "command.hpp"

namespace areo::cli {

/// Whether a stream that begins so is an export, or a part of one, and no table of readings.
[[nodiscard]] bool is_export(std::string_view begin);
/// An export in one stream, a row a line.
/// @param file  its name, for messages
/// @return      exit code
/// @throws      Error{file} for an export of another version
int restore_json(std::istream& in, const std::string& file, const Session& session);
/// An export in a folder, one CSV file a table.
int restore_csv(const std::string& folder, const Session& session);

}  // namespace areo::cli
