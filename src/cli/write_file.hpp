#pragma once
// Files that are complete under their names, or absent.
#include <functional>
#include <ostream>
#include <string>

namespace areo::cli {

/// @throws Error{file} if the file is there already
void refuse_existing(const std::string& path);
/// Writes beside it first, then gives the file its name; an older one is replaced at once.
/// @throws Error{file} if it cannot be written
void write_file(const std::string& path, const std::function<void(std::ostream&)>& write);

}  // namespace areo::cli
