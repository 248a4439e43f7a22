#pragma once
// Files that are complete under their names, or absent.
#include <functional>
#include <ostream>
#include <string>

namespace areo::cli {

/// @throws Error{file} if the file is there already
void refuse_existing(const std::string& path);
/// Writes beside it first, then gives the file its name; an older one is replaced at once, behind a
/// link too.
/// @throws Error{file} if it cannot be written, or if what is there is no ordinary file or a
/// database
void write_file(const std::string& path, const std::function<void(std::ostream&)>& write);

/// @throws Error{file} if both are one file, behind whatever names
/// @param what  the other one is: "the notebook"
void refuse_same(const std::string& path, const std::string& other, const char* what);

}  // namespace areo::cli
